import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { openDatabase } from '../../db/open.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const HOLDER = `
  const { openFolder } = await import(${JSON.stringify(join(import.meta.dirname, '../../db/folder.ts'))})
  await openFolder(process.argv[1])
  process.stdout.write('held')
  setInterval(() => {}, 1000)
`
const holdElsewhere = async () => {
  const holder = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', HOLDER, folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  await once(holder.stdout, 'data')
  return holder
}

describe('a data folder', () => {
  it('is made when missing, for its owner alone', async () => {
    const path = join(folder, 'deep', 'data')
    const { close } = await openFolder(path)
    expect(statSync(path).mode & 0o777).toBe(0o700)
    close()
  })

  it('lets one opener in at a time, and the next one after it has closed', async () => {
    const first = await openFolder(folder)
    await expect(openFolder(folder)).rejects.toMatchObject({ code: 'conflict', key: 'fault.folder-in-use' })
    first.close()
    const second = await openFolder(folder)
    second.close()
  })

  it('is refused while another process holds it, and free once that process is killed', async () => {
    const holder = await holdElsewhere()
    const attempt = openFolder(folder)
    await expect(attempt)
      .rejects.toMatchObject({ code: 'conflict', values: { folder } })
      .finally(() => {
        holder.kill('SIGKILL')
      })
    await once(holder, 'exit')
    const { db, close } = await openFolder(folder)
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok')
    close()
  })

  it('is left free when the database in it cannot be opened', async () => {
    const db = openDatabase(folder)
    db.pragma('user_version = 999')
    db.close()
    await expect(openFolder(folder)).rejects.toThrow(/newer than this program/)
    await expect(openFolder(folder)).rejects.toThrow(/newer than this program/)
  })
})
