import { mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type OpenFolder, openFolder } from '../../db/folder.ts'
import { openBackups } from '../../server/desk/backup-start.ts'
import { folderWithNight } from '../support/mark-folder.ts'

const MINUTE_MS = 60_000
const BEGINS_MS = Date.parse('2026-12-17T17:20:00Z')

let folder = ''
let open: OpenFolder
let keeping: Awaited<ReturnType<typeof openBackups>>
let nowMs = BEGINS_MS
let tick: () => Promise<void> = async () => {}

const names = () => readdirSync(join(folder, 'backups'))
const desk = () => keeping.desk

async function start(second: string | null = null): Promise<void> {
  open = await openFolder(folder)
  const every = (_ms: number, run: () => Promise<void>) => {
    tick = run
    return () => {}
  }
  keeping = await openBackups({ ...open, folder, nowMs: () => nowMs, backups: { second, every } })
  await expect.poll(() => desk().status().lastAt, { timeout: 20_000 }).toEqual(new Date(nowMs))
}
/** Something that the host does, and that a copy must hold. */
function change(): void {
  open.db.prepare('INSERT INTO person (id, name) VALUES (@id, @id)').run({ id: `person-${nowMs}` })
}
const people = () => open.db.prepare('SELECT count(*) FROM person').pluck().get()
async function stop(): Promise<void> {
  await keeping.close()
  open.close()
}
async function minutesLater(minutes: number): Promise<void> {
  for (let i = 0; i < minutes; i++) {
    nowMs += MINUTE_MS
    await tick()
  }
}

beforeEach(async () => {
  nowMs = BEGINS_MS
  folder = await folderWithNight()
})
afterEach(async () => {
  await stop()
  rmSync(folder, { recursive: true, force: true })
})

describe('copies by time', () => {
  it('are made at the start, and no more while nothing changes', async () => {
    await start()
    expect(names()).toEqual(['timed-2026-12-17T17-20-00-000Z.db'])
    await minutesLater(60)
    expect(names()).toHaveLength(1)
    expect(desk().status()).toMatchObject({ isTimed: true, isLate: false, trouble: null, second: null })
  })

  it('are made ten minutes after the last one when something has changed, and at once after a calm hour', async () => {
    await start()
    change()
    await minutesLater(9)
    expect(names()).toHaveLength(1)
    await minutesLater(1)
    expect(names()).toHaveLength(2)
    await minutesLater(60)
    change()
    await minutesLater(1)
    expect(names()).toHaveLength(3)
    expect(desk().status().lastAt).toEqual(new Date(nowMs))
  })

  it('go on when the clock of the laptop is put back', async () => {
    await start()
    change()
    nowMs -= 3 * 60 * MINUTE_MS
    await tick()
    expect(names()).toHaveLength(2)
  })

  it('are kept ten at a time, beside three from before migrations', async () => {
    const backups = join(folder, 'backups')
    mkdirSync(backups)
    for (const day of ['10', '11', '12', '13']) {
      writeFileSync(join(backups, `before-migration-2-2026-12-${day}T00-00-00-000Z.db`), '')
    }
    writeFileSync(join(backups, 'timed-2026-12-17T17-00-00-000Z.db.unfinished'), 'half')
    await start()
    for (let i = 0; i < 12; i++) {
      change()
      await minutesLater(10)
    }
    const timed = names().filter((name) => name.startsWith('timed-'))
    expect(timed).toHaveLength(10)
    expect(timed.sort()[0]).toBe('timed-2026-12-17T17-50-00-000Z.db')
    expect(names().filter((name) => name.startsWith('before-'))).toEqual(
      ['11', '12', '13'].map((day) => `before-migration-2-2026-12-${day}T00-00-00-000Z.db`),
    )
    expect(names()).toHaveLength(13)
  })

  it('are late when a change of twenty minutes ago is in none, and say why', async () => {
    await start()
    rmSync(join(folder, 'backups'), { recursive: true })
    writeFileSync(join(folder, 'backups'), 'no folder')
    change()
    await minutesLater(20)
    expect(desk().status()).toMatchObject({ isLate: false, trouble: 'failed' })
    await expect(desk().copy()).rejects.toMatchObject({ code: 'storage', key: 'backups.trouble-failed' })
    await minutesLater(2)
    expect(desk().status()).toMatchObject({ isLate: true, trouble: 'failed' })
    rmSync(join(folder, 'backups'))
    await minutesLater(1)
    expect(desk().status()).toMatchObject({ isLate: false, trouble: null, lastAt: new Date(nowMs) })
  })

  it('are files for the owner alone, each whole in itself', async () => {
    await start()
    const [name = ''] = names()
    expect(statSync(join(folder, 'backups', name)).mode & 0o777).toBe(0o600)
    expect(await desk().all()).toMatchObject([
      { name, kind: 'timed', state: 'whole', nights: 1, marks: 0, refusal: null },
    ])
  })
})

describe('the second folder', () => {
  it('gets every copy, and is watched when it is pulled out and comes back', async () => {
    const stick = mkdtempSync(join(tmpdir(), 'duskrow-stick-'))
    const away = `${stick}-away`
    await start(stick)
    const onStick = () => readdirSync(stick).filter((name) => name.endsWith('.db'))
    const state = () => desk().status().second
    await expect.poll(() => state()?.lastAt).toEqual(new Date(nowMs))
    expect(onStick()).toEqual(names())

    renameSync(stick, away)
    mkdirSync(stick)
    change()
    await minutesLater(10)
    await expect.poll(() => state()?.trouble).toBe('missing')
    expect(desk().status()).toMatchObject({ trouble: null, lastAt: new Date(nowMs) })
    expect([names().length, readdirSync(stick)]).toEqual([2, []])

    rmSync(stick, { recursive: true })
    renameSync(away, stick)
    await minutesLater(1)
    await expect.poll(() => state()).toMatchObject({ trouble: null, lastAt: desk().status().lastAt })
    expect(onStick()).toHaveLength(2)
    rmSync(stick, { recursive: true })
  })
})

describe('going back', () => {
  it('is noted, spares the copy, and is done at the next start', async () => {
    await start()
    const [name = ''] = names()
    const before = people()
    await desk().goBack(name)
    expect(desk().status().goesBackTo?.name).toBe(name)
    for (let i = 0; i < 11; i++) {
      change()
      await minutesLater(10)
    }
    expect(names()).toContain(name)
    await stop()
    await start()
    expect(people()).toBe(before)
    const { wentBack, goesBackTo } = desk().status()
    expect(wentBack).toMatchObject({ refusal: null, asideAt: expect.stringContaining('set-aside') })
    expect(goesBackTo).toBeNull()
    expect(readdirSync(wentBack?.asideAt ?? '')).toContain('duskrow.db')
    const copies = await desk().all()
    expect(copies.map(({ kind }) => kind)).toContain('before-restore')
  })

  it('can be taken back, and is refused for what is no whole copy', async () => {
    await start()
    const [name = ''] = names()
    await desk().goBack(name)
    desk().stay()
    expect(desk().status().goesBackTo).toBeNull()
    await expect(desk().goBack('../duskrow.db')).rejects.toMatchObject({ code: 'not-found' })
    const broken = 'timed-2026-12-17T10-00-00-000Z.db'
    writeFileSync(join(folder, 'backups', broken), 'not a database at all')
    await expect(desk().goBack(broken)).rejects.toMatchObject({ key: 'backups.refusal-damaged' })
  })
})
