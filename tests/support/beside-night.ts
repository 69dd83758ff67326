import { type BesideInput, besideTelescopes } from '../../server/tours/beside.ts'
import type { BesideHalf, BesideKind, BesideLine, SightLine } from '../../server/tours/beside-lines.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import type { Night, Station } from '../../server/tours/night.ts'
import { demoNight, southernNight } from './demo-night.ts'
import { OUTREACH } from './evenings.ts'

/** The whole list, sights for bare eyes and showers among it. */
export const EVERYTHING = OUTREACH

export const ALL_KINDS: readonly BesideKind[] = ['bare-eye', 'binoculars', 'screen', 'questions']

/** A night with one station of each of the kinds behind its row; the id of each is its kind. */
export function withBeside(night: Night, kinds: readonly BesideKind[] = ALL_KINDS): Night {
  const stations: readonly Station[] = kinds.map((kind, i) => ({
    id: kinds.indexOf(kind) === i ? kind : `${kind}-${i}`,
    name: `The ${kind}`,
    kind,
    telescope: null,
    operator: '',
    isForChildren: false,
  }))
  return { ...night, stations: [...night.stations, ...stations] }
}

/** What the stations beside the telescopes show. */
export function besideOf(night: Night, more: Partial<BesideInput> = {}): readonly BesideHalf[] {
  const objects = more.objects ?? EVERYTHING
  const sky = more.sky ?? eveningSky(night, objects)
  const asking = besideTelescopes({ night, stops: [], passes: [], ...more, objects, sky })
  let turn = asking.next()
  while (!turn.done) turn = asking.next()
  return turn.value
}

/** The half hours of one station. */
export const halvesOf = (halves: readonly BesideHalf[], stationId: string): readonly BesideHalf[] =>
  halves.filter((half) => half.stationId === stationId)

/** The lines of one sort in some half hours, each with its half hour. */
export function linesOf<What extends BesideLine['what']>(halves: readonly BesideHalf[], what: What) {
  return halves.flatMap((half) =>
    half.lines
      .filter((line): line is Extract<BesideLine, { what: What }> => line.what === what)
      .map((line) => ({ half, line })),
  )
}

/** The moments of a sight in its half hour: every minute from its beginning to its leave-by or the end, both included. */
export function momentsOf(half: BesideHalf, line: SightLine): readonly Date[] {
  const lastMs = Math.min(half.toAt.getTime(), line.leave?.at.getTime() ?? Number.POSITIVE_INFINITY)
  const count = Math.floor((lastMs - line.fromAt.getTime()) / 60_000)
  return Array.from({ length: count + 1 }, (_, k) => new Date(line.fromAt.getTime() + 60_000 * k))
}

/** 55 S in a June night: the Sun is gone early, and the whole of the southern Milky Way is high. */
const farSouth: Night = {
  ...southernNight,
  date: '2027-06-05',
  site: {
    ...southernNight.site,
    latitudeDeg: -54.8,
    longitudeDeg: -68.3,
    zone: 'America/Argentina/Ushuaia',
    skyMag: 21.6,
  },
}
/** A June evening at 47 N: the Sun is up until 21:26. */
export const midsummer: Night = { ...demoNight, date: '2026-06-20', opens: '20:30', closes: '23:10' }
const afterMidnight: Night = { ...demoNight, date: '2026-12-18', opens: '00:15', closes: '02:00' }
const darkWinter: Night = { ...demoNight, date: '2026-12-09', site: { ...demoNight.site, skyMag: 21.6 } }

/** Both demo nights and four odd ones. */
export const NIGHTS = { demoNight, southernNight, farSouth, midsummer, afterMidnight, darkWinter }
