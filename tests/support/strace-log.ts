import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

const ACK_IN_HEX = '"\\x61\\x63\\x6b\\x20'
const SYNCS = ['-s', '80', '-e', 'trace=write,pwrite64,writev,pwritev,fsync,fdatasync']

/** Runs a program and answers the log of what its main thread wrote and synced, one system call a line. */
export function straceLog(folder: string, command: readonly string[], flags: readonly string[] = SYNCS): string {
  const args = ['-ff', '-y', ...flags, '-o', join(folder, 'calls'), ...command]
  execFileSync('strace', args, { stdio: ['ignore', 'ignore', 'inherit'] })
  const logs = readdirSync(folder)
    .filter((name) => name.startsWith('calls.'))
    .map((name) => readFileSync(join(folder, name), 'utf8'))
  const main = logs.find((log) => log.includes('"ack ') || log.includes(ACK_IN_HEX))
  if (main === undefined) throw new Error('No thread acknowledged anything')
  return main
}

interface AckVerdict {
  readonly acks: number
  /** How often the write-ahead log was synced. */
  readonly syncs: number
  /** Keys whose acknowledgement left while something written to the log had not been synced, or had not been written at all. */
  readonly early: readonly string[]
}

/** Judges a log: whatever stands in the write-ahead log must be synced before an acknowledgement leaves. */
export function judgeAcks(log: string): AckVerdict {
  let [acks, syncs, unsynced, isNew] = [0, 0, false, false]
  const early: string[] = []
  for (const line of log.split('\n')) {
    const [, call = ''] = /^(\w+)\(/.exec(line) ?? []
    const isWal = /^\w+\(\d+<[^>]*-wal>/.test(line)
    const [, key] = /^write\(1<[^>]*>, "ack (\S+?)\\n"/.exec(line) ?? []
    if (key !== undefined) {
      acks += 1
      if (unsynced || !isNew) early.push(key)
    } else if (isWal && call.endsWith('sync') && /= 0$/.test(line)) {
      syncs += 1
      unsynced = false
    } else if (isWal) {
      unsynced = true
      isNew = true
    }
  }
  return { acks, syncs, early }
}
