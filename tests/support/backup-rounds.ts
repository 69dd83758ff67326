import { spawn } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { backUp } from '../../db/backup.ts'
import { backupsOf, copiesOf, copyName, UNFINISHED } from '../../db/copies.ts'
import { lookAtCopy } from '../../db/copy-look.ts'
import { openFolder } from '../../db/folder.ts'
import { wishToGoBack } from '../../db/restore.ts'
import { markLog } from '../../server/desk/mark-log.ts'
import { markDesk } from '../../server/desk/marks.ts'
import { openStores } from '../../server/desk/stores.ts'
import { foldField } from '../../server/tours/fold.ts'
import { outbox } from '../../views/scripts/outbox.ts'
import { phoneShelf } from '../faults/phones-shelf.ts'
import { bundlePath, bundleProgram } from './bundled-program.ts'
import { standingClock } from './desk-folder.ts'
import { folderWithNight } from './mark-folder.ts'

const TAKER = 'copying-taker'
const BEGINS = '2026-12-17T17:20:00.000Z'
const PHONES = 4
const EARLIER_MARKS = 5_000
const TEN_MIN_MS = 600_000

/** A folder with a night that has some thousand acts already, so that a copy takes a while, and a copy of an hour before. */
export async function longNight(count = EARLIER_MARKS): Promise<string> {
  const folder = await folderWithNight()
  const { db, close } = await openFolder(folder)
  const { marks, nights } = openStores(db)
  const nightId = nights.all()[0]?.id ?? ''
  const at = new Date(Date.parse(BEGINS) - 3_600_000)
  const rest = { nightId, stationId: null, kind: 'counted', by: 'Ines', receivedAt: at, happenedAt: at } as const
  marks.together(() => {
    for (let i = 0; i < count; i++) {
      marks.keep({ ...rest, key: `earlier-${String(i).padStart(6, '0')}`, payload: { adults: 1, children: 0 } })
    }
  })
  await backUp(folder, copyName('timed', at))
  close()
  return folder
}

/** Bundles the service of the drills; answers how to take the bundle away. */
export async function bundleDrill(): Promise<() => void> {
  await bundleProgram(TAKER)
  return () => rmSync(bundlePath(TAKER))
}

/** When a round ends: while its so-manyth copy is made, or after so many acts. */
export interface Kill {
  readonly atCopy: number | null
  readonly afterMs: number
  readonly atAck: number
}

/** Lets a service take acts on a folder and keep copies, and kills it outright; answers its acknowledged acts with their times. */
async function takeUntilKilled(folder: string, { atCopy, afterMs, atAck }: Kill): Promise<ReadonlyMap<string, number>> {
  const args = [bundlePath(TAKER), folder, String(Date.parse(BEGINS))]
  const taker = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
  const acked = new Map<string, number>()
  let copies = 0
  for await (const line of createInterface({ input: taker.stdout })) {
    const [word = '', key = '', ms = ''] = line.split(' ')
    if (word === 'ack' && /^\d{13}$/.test(ms)) acked.set(key, Number(ms))
    if (word === 'copying') copies += 1
    const isTime = atCopy === null ? acked.size >= atAck && copies > 1 : word === 'copying' && copies === atCopy
    if (isTime) setTimeout(() => taker.kill('SIGKILL'), atCopy === null ? 0 : afterMs)
  }
  return acked
}

/** The phones of the round, with the outbox of the real pages: each has sent a part of the acts and been answered. */
async function phonesOf(acked: ReadonlyMap<string, number>, nightId: string, clock: { ms: number }) {
  const answer = (_address: string, { body }: RequestInit) =>
    Promise.resolve(Response.json({ kept: JSON.parse(String(body)).marks, refused: [], version: 'first.1' }))
  let reach: (address: string, init: RequestInit) => Promise<Response> = answer
  const boxes = Array.from({ length: PHONES }, () =>
    outbox(nightId, { shelf: phoneShelf(), nowMs: () => clock.ms, fetch: (...asked) => reach(...asked) }),
  )
  let turn = 0
  for (const [key, ms] of acked) {
    clock.ms = ms
    const box = boxes[turn++ % PHONES]
    box?.add({ key, kind: 'counted', stationId: null, payload: { adults: 1, children: 0 }, doneAtMs: ms, text: key })
    await box?.send()
  }
  return {
    async sendAgain(version: string, known: ReadonlySet<string>, fetch: typeof reach): Promise<void> {
      reach = fetch
      for (const box of boxes) {
        box.offerAgain(version, known)
        while (box.count() > 0) await box.send()
      }
    },
  }
}

/** Opens a folder and reads the marks of its night in their order, and what they fold into. */
async function readNight(folder: string) {
  const { db, close } = await openFolder(folder)
  const stores = openStores(db)
  const [night] = stores.nights.all()
  if (!night) throw new Error('The folder has no night')
  return { db, stores, night, marks: stores.marks.since(night.id, 0), close }
}

const foldOf = ({ night, marks }: Pick<Awaited<ReturnType<typeof readNight>>, 'night' | 'marks'>) =>
  foldField({ night, tour: null, marks, at: new Date(Date.parse(BEGINS) + 86_400_000) })

interface Round {
  readonly acked: number
  /** Acknowledged acts that the copy lacked. */
  readonly lost: number
  /** How long before the end the first of them was acknowledged. */
  readonly lostMs: number
  readonly copies: number
  readonly unfinished: number
  readonly problems: readonly string[]
}

/**
 * One drill: a service takes acts and keeps copies, is killed, its database is deleted, the newest copy is put back, and
 * the phones send again what they still hold. It needs the bundle. `problems` is empty when all held.
 */
export async function drill(template: string, kill: Kill): Promise<Round> {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-drill-'))
  try {
    cpSync(template, folder, { recursive: true })
    const acked = await takeUntilKilled(folder, kill)
    return await judge(folder, acked)
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 3 })
  }
}

async function judge(folder: string, acked: ReadonlyMap<string, number>): Promise<Round> {
  const files = readdirSync(backupsOf(folder))
  const named = files.filter((name) => !name.includes(UNFINISHED))
  const broken = named.filter((name) => lookAtCopy(join(backupsOf(folder), name)).state !== 'whole')
  const before = await readNight(folder)
  before.close()
  for (const rest of ['', '-wal', '-shm']) rmSync(join(folder, `duskrow.db${rest}`), { force: true })

  const [newest] = copiesOf(folder)
  const lastMs = Math.max(Date.parse(BEGINS), ...acked.values())
  const clock = { ms: lastMs }
  const phones = await phonesOf(acked, before.night.id, clock)
  clock.ms = lastMs
  const copied = newest?.madeAt.getTime() ?? 0
  if (newest) wishToGoBack(folder, join(backupsOf(folder), newest.name))
  const after = await readNight(folder)
  const known = new Set(after.marks.map(({ key }) => key))
  const lost = [...acked].filter(([key]) => !known.has(key))
  const lostMs = lost.length === 0 ? 0 : lastMs - Math.min(...lost.map(([, ms]) => ms))
  const prefix = before.marks.slice(0, after.marks.length)

  const desk = markDesk({
    ...after.stores,
    clock: standingClock(new Date(lastMs).toISOString()),
    log: markLog(after.stores.marks),
    knowsObject: () => true,
    programme: () => undefined,
  })
  await phones.sendAgain(desk.version(before.night.id), known, async (_address, { body }) => {
    const { kept, refused } = desk.record(before.night.id, JSON.parse(String(body)).marks, 'A phone', 'helper')
    return Response.json({ kept, refused, version: desk.version(before.night.id) })
  })
  const keys = desk.since(before.night.id, 0).map(({ key }) => key)
  const isSound = after.db.pragma('integrity_check', { simple: true }) === 'ok'
  after.close()
  const all = new Set(keys)
  return {
    acked: acked.size,
    lost: lost.length,
    lostMs,
    copies: named.length,
    unfinished: files.length - named.length,
    problems: [
      ...(newest ? [] : ['there is no copy']),
      ...broken.map((name) => `${name} has its name and is not whole`),
      ...(lost.some(([, ms]) => ms < copied) ? ['an act of before the copy is not in it'] : []),
      ...(lostMs > TEN_MIN_MS ? [`acts of ${lostMs / 60_000} minutes were lost`] : []),
      ...(JSON.stringify(foldOf({ ...before, marks: prefix })) === JSON.stringify(foldOf(after))
        ? []
        : ['the copy folds into something else']),
      ...(isSound ? [] : ['the database is damaged']),
      ...([...acked.keys()].every((key) => all.has(key)) ? [] : ['an act is lost after the phones have sent again']),
      ...(all.size === keys.length ? [] : ['an act is there twice']),
    ],
  }
}
