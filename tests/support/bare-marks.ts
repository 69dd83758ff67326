import type { Clock } from '../../server/clock.ts'
import { markLog } from '../../server/desk/mark-log.ts'
import { type MarkDesk, markDesk } from '../../server/desk/marks.ts'
import type { Stores } from '../../server/desk/stores.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Tour } from '../../server/tours/tour.ts'

type ProgrammeOf = (nightId: string) => Tour | undefined

/** Keeping acts as the service does, but without a catalogue: every thing may be named. */
export const bareMarks = (stores: Stores, clock: Clock, programme: ProgrammeOf = () => undefined): MarkDesk =>
  markDesk({ ...stores, clock, log: markLog(stores.marks), knowsObject: () => true, programme })

/** The night of a folder that has one. */
export function onlyNight({ nights }: Pick<Stores, 'nights'>): Night {
  const [night] = nights.all()
  if (!night) throw new Error('The folder has no night')
  return night
}
