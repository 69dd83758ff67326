import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { backUp } from '../../db/backup.ts'
import { openFolder } from '../../db/folder.ts'
import { restore } from '../../server/restore.ts'
import { bundleDrill, drill, longNight } from '../support/backup-rounds.ts'

const ROOT = join(import.meta.dirname, '../..')
let template = ''
let removeBundle = () => {}
beforeAll(async () => {
  removeBundle = await bundleDrill()
  template = await longNight()
})
afterAll(() => {
  removeBundle()
  rmSync(template, { recursive: true, force: true })
})

describe('a service that is killed while it makes a copy, and whose database is gone', () => {
  it('loses ten minutes at most, and nothing once the phones have sent again', async () => {
    const round = await drill(template, { atCopy: 2, afterMs: 40, atAck: 0 })
    expect(round.problems).toEqual([])
    expect(round.acked).toBeGreaterThan(20)
    expect(round.copies).toBeGreaterThan(0)
  })
})

describe('npm run restore', () => {
  const command = (...flags: string[]) => {
    const args = ['--import', 'tsx', 'server/restore.ts', ...flags]
    const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: ROOT, encoding: 'utf8' })
    return { status, said: stdout + stderr }
  }

  it('lists the copies, goes back to the newest, and refuses while a service holds the folder', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
    const open = await openFolder(folder)
    const path = await backUp(folder, 'timed-2026-12-17T17-20-00-000Z.db')
    open.db.exec("INSERT INTO person (id, name) VALUES ('bo', 'bo')")
    const asked = { folder, from: null, isListOnly: false }
    await expect(restore(asked)).rejects.toMatchObject({ key: 'fault.folder-in-use' })
    open.close()

    const done = command('--data', folder)
    expect(done.status).toBe(0)
    expect(done.said).toMatch(/timed-2026-12-17T17-20-00-000Z\.db {2}\d+ kB, nights: 0, marks: 0/)
    expect(done.said).toMatch(
      /The database is now timed-\S+\. The one of before lies in \S+, and a copy of it is before-/,
    )
    expect(readdirSync(join(folder, 'set-aside'))).toHaveLength(1)
    const after = await openFolder(folder)
    expect(after.db.prepare('SELECT count(*) FROM person').pluck().get()).toBe(0)
    after.close()

    // The copy of the state that was left is the newest, and still not what a second call would go back to.
    expect((await restore(asked)).said).toMatch(/The database is now timed-2026-12-17T17-20-00-000Z\.db/)

    const elsewhere = join(folder, 'new-laptop')
    const there = (from: string | null) => restore({ folder: elsewhere, from, isListOnly: false })
    expect(await there(null)).toMatchObject({ isDone: false, said: expect.stringContaining('There is no whole copy') })
    expect(await there(join(folder, 'none.db'))).toMatchObject({
      isDone: false,
      said: expect.stringMatching(/is not there\. Nothing was changed\.$/),
    })
    expect(await there(path)).toMatchObject({ isDone: true, said: expect.stringMatching(/There was none before\.$/) })
    rmSync(folder, { recursive: true })
  })
})
