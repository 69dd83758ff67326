import type { Database } from 'better-sqlite3'
import type { Clock } from '../../server/clock.ts'
import { markLog } from '../../server/desk/mark-log.ts'
import { type MarkDesk, markDesk } from '../../server/desk/marks.ts'
import { openStores, type Stores } from '../../server/desk/stores.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Tour } from '../../server/tours/tour.ts'

type ProgrammeOf = (nightId: string) => Tour | undefined

/** Keeping acts as the service does, but without a catalogue: every thing may be named. */
export const bareMarks = (stores: Stores, clock: Clock, programme: ProgrammeOf = () => undefined): MarkDesk =>
  markDesk({ ...stores, clock, log: markLog(stores.marks), knowsObject: () => true, programme })

/** The same over the only night of an open database. */
export function onlyNight(db: Database, clock: Clock): { readonly night: Night; readonly marks: MarkDesk } {
  const stores = openStores(db)
  const [night] = stores.nights.all()
  if (!night) throw new Error('The folder has no night')
  return { night, marks: bareMarks(stores, clock) }
}
