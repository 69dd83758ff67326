import { type Problem, refuse } from '../errors.ts'
import { airmassPickering } from '../sky/airmass.ts'
import { BODY_KEYS, type BodyKey, bodyLook } from '../sky/body.ts'
import { skyEvening } from '../sky/evening.ts'
import type { Place } from '../sky/place.ts'
import { apparentAltitudeDeg } from '../sky/refraction.ts'
import { saturnRing } from '../sky/saturn.ts'
import { type StarPlace, starHorizontal, starOfDate } from '../sky/star.ts'
import { isZone, noonOf } from '../tours/hours.ts'
import type { Desk, EveningAnswer, SkyPlaceAnswer } from './desk.ts'

const HOUR_MS = 3_600_000
const MOON_AFTER_DUSK_MS = 2 * HOUR_MS
const EVENING_AFTER_NOON_MS = 8 * HOUR_MS

/** A thing beyond the solar system as the catalogue has it. */
export interface Fixed {
  readonly key: string
  readonly star: StarPlace
  readonly magnitude: number | null
}

/** Questions about the sky that no programme is needed for; `fixedOf` answers where a fixed object stands or throws. */
export const skyDesk = (fixedOf: (key: string) => Fixed): Desk['sky'] => ({
  places: (at, place, keys) =>
    keys.map((key) => (isBody(key) ? bodyAnswer(key, at, place) : fixedAnswer(fixedOf(key), at, place))),
  evening,
  bodyLook,
})

/** True when the key is one of the Sun, the Moon and the planets. */
const isBody = (key: string): key is BodyKey => BODY_KEYS.some((body) => body === key)

function bodyAnswer(key: BodyKey, at: Date, place: Place): SkyPlaceAnswer {
  const look = bodyLook(key, at, place)
  return {
    key,
    ...seenFrom(look.altitudeDeg),
    azimuthDeg: look.azimuthDeg,
    raDeg: look.raDeg,
    decDeg: look.decDeg,
    magnitude: look.magnitude,
    look,
    ringTiltDeg: key === 'saturn' ? saturnRing(at).tiltEarthDeg : null,
  }
}

function fixedAnswer({ key, star, magnitude }: Fixed, at: Date, place: Place): SkyPlaceAnswer {
  const { altitudeDeg, azimuthDeg } = starHorizontal(star, at, place)
  return {
    key,
    ...seenFrom(altitudeDeg),
    azimuthDeg,
    ...starOfDate(star, at),
    magnitude,
    look: null,
    ringTiltDeg: null,
  }
}

function seenFrom(altitudeDeg: number) {
  const apparent = apparentAltitudeDeg(altitudeDeg)
  return { altitudeDeg, apparentAltitudeDeg: apparent, airmass: apparent < 0 ? null : airmassPickering(apparent) }
}

function evening(date: string, place: Place, zone: string): EveningAnswer {
  refuse(dateProblems(date, zone))
  const noonAt = noonOf(date, zone)
  const events = skyEvening(noonAt, place)
  const duskMs = events.astronomicalDuskAt?.getTime()
  const middleMs = duskMs === undefined ? noonAt.getTime() + EVENING_AFTER_NOON_MS : duskMs + MOON_AFTER_DUSK_MS
  const moon = bodyLook('moon', new Date(middleMs), place)
  const later = bodyLook('moon', new Date(middleMs + 6 * HOUR_MS), place)
  return { ...events, date, zone, moon, isMoonWaxing: later.phaseAngleDeg < moon.phaseAngleDeg }
}

function dateProblems(date: string, zone: string): Problem[] {
  const at = new Date(`${date}T00:00:00Z`)
  const isDay = !Number.isNaN(at.getTime()) && at.toISOString().startsWith(`${date}T`)
  return [
    ...(isDay ? [] : [{ field: 'date', key: 'problem.no-such-day' }]),
    ...(isZone(zone) ? [] : [{ field: 'zone', key: 'problem.zone-unknown' }]),
  ]
}
