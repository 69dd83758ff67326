import { writeSync } from 'node:fs'
import { openFolder } from '../../db/folder.ts'
import { realClock } from '../../server/clock.ts'
import type { MarkDraft } from '../../server/tours/mark.ts'
import { onlyNight } from './bare-marks.ts'

/**
 * Run as a process of its own: takes marks `<prefix>-00000`, `-00001` ... on the only night of a folder, a few at a time,
 * and writes `ack <key>` to its output for each one that the desk has answered. Two manners are wrong on purpose, so that
 * tests can show that they would see it: `careless` leaves the syncing to luck, `hasty` acknowledges before it keeps.
 */
const [folder = '', prefix = '', count = '0', manner = 'careful', most = '3'] = process.argv.slice(2)
const { db, close } = await openFolder(folder)
if (manner === 'careless') db.pragma('synchronous = NORMAL')
const { night, marks } = onlyNight(db, realClock())

const UNDO_EVERY = 11
const keyOf = (i: number) => `${prefix}-${String(i).padStart(5, '0')}`

/** Mostly showings, some people at the gate, and now and then an act of before taken back. */
function draftOf(i: number): MarkDraft {
  const [key, secondsAgo] = [keyOf(i), i % 7]
  if (i % UNDO_EVERY === UNDO_EVERY - 1)
    return { key, kind: 'undo', stationId: null, payload: { markKey: keyOf(i - 5) }, secondsAgo: 0 }
  if (i % 5 === 0) return { key, kind: 'counted', stationId: null, payload: { adults: 2, children: 1 }, secondsAgo }
  const stationId = night.stations[i % night.stations.length]?.id ?? null
  return { key, kind: 'showing', stationId, payload: { targetKey: 'saturn', aim: 'whole' }, secondsAgo }
}

for (let next = 0; next < Number(count); ) {
  const together = Math.min(1 + (next % Number(most)), Number(count) - next)
  const drafts = Array.from({ length: together }, (_, i) => draftOf(next + i))
  const acknowledge = () => {
    for (const { key } of drafts) writeSync(1, `ack ${key}\n`)
  }
  if (manner === 'hasty') acknowledge()
  const { kept } = marks.record(night.id, drafts, 'Mirela', 'operator')
  if (kept.length < together) throw new Error('An act was refused')
  if (manner !== 'hasty') acknowledge()
  next += together
}
close()
