import { writeSync } from 'node:fs'
import { openFolder } from '../../db/folder.ts'
import { openBackups } from '../../server/desk/backup-start.ts'
import { newId } from '../../server/desk/ids.ts'
import { onlyNight } from './bare-marks.ts'

/**
 * Run as a process of its own until it is killed: takes a mark every twenty seconds of a made-up clock on the only night of
 * a folder and keeps copies by that clock, which stands still while one is made, but marks go on. Writes
 * `ack <key> <ms by that clock>` for each mark that the desk has answered, and `copying` and `copied`.
 */
const [folder = '', begins = ''] = process.argv.slice(2)
const SECONDS_APART = 20
let nowMs = Number(begins)
let tick: () => Promise<void> = async () => {}
const every = (_ms: number, run: () => Promise<void>) => {
  tick = run
  return () => {}
}
const soon = () => new Promise((resolve) => setImmediate(resolve))
const say = (line: string) => writeSync(1, `${line}\n`)

const open = await openFolder(folder)
const { desk } = await openBackups({ ...open, folder, nowMs: () => nowMs, backups: { second: null, every } })
const clock = { now: () => new Date(nowMs), isRehearsal: true, speed: 1 }
const { night, marks } = onlyNight(open.db, clock)

function takeOne(): void {
  const payload = { adults: 1, children: 0 }
  const draft = { key: newId(), kind: 'counted' as const, stationId: null, payload, secondsAgo: 0 }
  for (const { key } of marks.record(night.id, [draft], 'Mirela', 'helper').kept) say(`ack ${key} ${nowMs}`)
}

async function whileCopying(copying: Promise<unknown>): Promise<void> {
  let isDone = false
  const done = copying.then(() => {
    isDone = true
  })
  for (; !isDone; await soon()) takeOne()
  await done
}

async function firstCopy(): Promise<void> {
  while (desk.status().lastAt?.getTime() !== nowMs) await soon()
}

say('copying')
await whileCopying(firstCopy())
say('copied')
for (let second = SECONDS_APART; ; second += SECONDS_APART) {
  nowMs += SECONDS_APART * 1_000
  takeOne()
  if (second % 60 !== 0) continue
  const before = desk.status().lastAt
  if (nowMs - (before?.getTime() ?? 0) >= 600_000) say('copying')
  await whileCopying(tick())
  if (desk.status().lastAt !== before) say('copied')
}
