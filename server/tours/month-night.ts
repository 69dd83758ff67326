import { bodyLook } from '../sky/body.ts'
import { skyEvening } from '../sky/evening.ts'
import { daysOf, instantOf, noonOf, quarterHours, wallClock } from './hours.ts'
import type { Night } from './night.ts'
import { rowNight } from './row-night.ts'
import { placeOf, type Site } from './site.ts'
import type { Telescope } from './telescope.ts'

/** Where, in which month (`YYYY-MM`), with which telescopes and for which public a list is asked for. */
export interface MonthAsk {
  readonly site: Site
  readonly month: string
  readonly telescopes: readonly Telescope[]
  readonly noviceFactor: number
}

/** The evening that stands for a month: one night with every telescope of the kit, and from when it is dark. */
export interface MonthNight {
  readonly night: Night
  /** The end of nautical twilight; null when it does not come before closing. */
  readonly darkAt: Date | null
  readonly opensAt: Date
  readonly closesAt: Date
  /** The quarter hours of the evening. */
  readonly quarters: readonly Date[]
}

const CLOSES = '23:30'
const LATEST_OPENING = '22:30'
const POLAR_OPENING = '17:00'
const HOUR_MS = 3_600_000
const DARK_SUN_DEG = -12
const DOWN_SUN_DEG = -0.833
const MIDDLE_DAY = 15
/** So many days hold nearly a whole round of the Moon. */
const SHORTEST_MONTH = 28

/** The telescope that is reckoned with where the kit has none: 150 mm of aperture, and two eyepieces. */
export const PLAIN_TELESCOPE: Telescope = {
  id: 'plain',
  name: '',
  mount: 'altaz-hand',
  tubes: [
    {
      id: 'plain',
      name: '',
      design: 'reflector',
      apertureMm: 150,
      focalLengthMm: 1000,
      obstruction: 0.25,
      transmission: 0.8,
      hasDiagonal: false,
    },
  ],
  eyepieces: [
    { id: 'wide', name: '', focalLengthMm: 25, apparentFieldDeg: 52, fieldStopMm: null },
    { id: 'close', name: '', focalLengthMm: 10, apparentFieldDeg: 52, fieldStopMm: null },
  ],
  factors: [],
  axisLowCm: 100,
  axisHighCm: 100,
  chairReach: 'side',
  floorDeg: 0,
  ceilingDeg: 90,
}

/** The 15th of the month, from an hour after sunset to 23:30 by the site's clocks; null where the Sun sets too late or never. */
export const monthNight = (ask: MonthAsk): MonthNight | null => nightOn(ask, `${ask.month}-${MIDDLE_DAY}`)

/** The evening of the month on which the growing Moon is nearest to half lit, the one that nights are planned for; null as above. */
export function moonNight(ask: MonthAsk): MonthNight | null {
  const place = placeOf(ask.site)
  const offHalf = (date: string): number => {
    const at = new Date(noonOf(date, ask.site.zone).getTime() + 8 * HOUR_MS)
    const later = bodyLook('moon', new Date(at.getTime() + 6 * HOUR_MS), place).elongationDeg
    const now = bodyLook('moon', at, place).elongationDeg
    return later < now ? 180 : Math.abs(now - 90)
  }
  const [best] = daysOf(ask.month)
    .slice(0, SHORTEST_MONTH)
    .map((date) => ({ date, off: offHalf(date) }))
    .sort((a, b) => a.off - b.off)
  return best === undefined ? null : nightOn(ask, best.date)
}

function nightOn({ site, telescopes, noviceFactor }: MonthAsk, date: string): MonthNight | null {
  const place = placeOf(site)
  const { sunsetAt, nauticalDuskAt } = skyEvening(noonOf(date, site.zone), place)
  const dated = { date, opens: POLAR_OPENING, closes: CLOSES, site }
  const closesAt = instantOf(dated, CLOSES)
  const sunDegAt = (at: Date) => bodyLook('sun', at, place).altitudeDeg
  if (sunsetAt === null && sunDegAt(closesAt) > DOWN_SUN_DEG) return null
  const opens = sunsetAt === null ? POLAR_OPENING : wallClock(new Date(sunsetAt.getTime() + HOUR_MS), site.zone)
  if (opens > LATEST_OPENING || opens < '12:00') return null
  const opensAt = instantOf(dated, opens)
  const darkAt = nauticalDuskAt ?? (sunDegAt(opensAt) < DARK_SUN_DEG ? opensAt : null)
  const night = rowNight({ id: 'month', ...dated, opens, telescopes, settings: { noviceFactor, moonGazerShare: 0 } })
  const quarters = quarterHours(night)
  return { night, darkAt: darkAt !== null && darkAt < closesAt ? darkAt : null, opensAt, closesAt, quarters }
}
