import { writeSync } from 'node:fs'
import { openFolder } from '../../db/folder.ts'
import { realClock } from '../../server/clock.ts'
import { markLog } from '../../server/desk/mark-log.ts'
import { markDesk } from '../../server/desk/marks.ts'
import { openStores } from '../../server/desk/stores.ts'

/**
 * Run as a process of its own: takes marks `<prefix>-00000`, `-00001` ... on the only night of a folder, a few at a time,
 * and writes `ack <key>` to its output for each one that the desk has answered. `careless` leaves the syncing to luck.
 */
const [folder = '', prefix = '', count = '0', manner = 'careful'] = process.argv.slice(2)
const { db, close } = await openFolder(folder)
if (manner === 'careless') db.pragma('synchronous = NORMAL')
const stores = openStores(db)
const clock = realClock()
const marks = markDesk({
  ...stores,
  clock,
  log: markLog(stores.marks),
  knowsObject: () => true,
  programme: () => undefined,
})
const [night] = stores.nights.all()
if (!night) throw new Error('The folder has no night')

const draftOf = (i: number) => ({
  key: `${prefix}-${String(i).padStart(5, '0')}`,
  kind: 'showing' as const,
  stationId: night.stations[i % night.stations.length]?.id ?? null,
  payload: { targetKey: 'saturn', aim: 'whole' },
  secondsAgo: i % 7,
})

for (let next = 0; next < Number(count); ) {
  const together = Math.min(1 + (next % 3), Number(count) - next)
  const drafts = Array.from({ length: together }, (_, i) => draftOf(next + i))
  for (const { key } of marks.record(night.id, drafts, 'Mirela', 'operator').kept) writeSync(1, `ack ${key}\n`)
  next += together
}
close()
