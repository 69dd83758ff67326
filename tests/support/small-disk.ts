import { spawn } from 'node:child_process'
import { closeSync, mkdtempSync, openSync, rmdirSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')
const FILLER = 'filler'
const BLOCK_BYTES = 1_048_576
// It holds the disk until its input ends, so that nothing stays mounted when the test itself is killed.
const HOLD = 'mount -t tmpfs -o "size=$2" tmpfs "$1" && cp -R "$0/." "$1/" && echo ready && exec cat'

export type SmallDisk = NonNullable<Awaited<ReturnType<typeof smallDisk>>>

/** A disk of its own in memory with a copy of a folder on it, which only processes see that run under it; null where mounting is not permitted. */
export async function smallDisk(template: string, megabytes: number) {
  const path = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const words = ['--mount', 'sh', '-c', HOLD, template, path, `${megabytes}m`]
  const holder = spawn('unshare', words, { stdio: ['pipe', 'pipe', 'ignore'] })
  const gone = new Promise<void>((resolve) => {
    holder.once('error', () => resolve())
    holder.once('close', () => resolve())
  })
  const isReady = await new Promise<boolean>((resolve) => {
    holder.stdout.once('data', () => resolve(true))
    void gone.then(() => resolve(false))
  })
  async function close(): Promise<void> {
    holder.stdin.end()
    await gone
    rmdirSync(path)
  }
  if (!isReady) {
    await close()
    return null
  }
  const seen = join('/proc', String(holder.pid), 'root', path)

  return {
    /** Where it is for processes under it, and for this one. */
    path,
    seen,
    /** What stands before a command line to run it where the disk is. */
    under: ['nsenter', `--mount=/proc/${holder.pid}/ns/mnt`, `--wd=${ROOT}`],
    /** Fills it up to the last byte. */
    fill(): void {
      const file = openSync(join(seen, FILLER), 'a')
      for (let size = BLOCK_BYTES; size >= 1; size = hasRoomFor(file, size) ? size : Math.floor(size / 2));
      closeSync(file)
    },
    /** Makes room again. */
    free: (): void => rmSync(join(seen, FILLER)),
    close,
  }
}

function hasRoomFor(file: number, size: number): boolean {
  try {
    return writeSync(file, Buffer.alloc(size)) === size
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOSPC') return false
    throw error
  }
}
