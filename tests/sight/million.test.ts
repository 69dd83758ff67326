import { expect, it } from 'vitest'
import { backdropOf } from '../../server/sight/backdrop.ts'
import type { Conditions } from '../../server/sight/conditions.ts'
import { prepare, sighting } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { conditionsWith, things, viewAt } from '../support/sight-data.ts'

const GROUPS = 20_000
const CASES = 50 // places of the sky for each thing, view and night: a million in all
const random = seededRandom(Number(process.env.PROPERTY_SEED ?? 20_261_217))
const between = (low: number, high: number) => low + (high - low) * random()
const oneOf = <T>(...values: readonly [T, ...T[]]): T => values[Math.floor(values.length * random())] ?? values[0]

/** Mostly anything from low to high, one time in six a value where laws change or end. */
const often = (low: number, high: number, ...edges: readonly [number, ...number[]]): number =>
  random() < 1 / 6 ? oneOf(...edges) : between(low, high)

const anyMoon = (): SkyGeometry['moon'] =>
  random() < 0.2
    ? null
    : {
        altitudeDeg: often(-10, 90, 0, 1e-9, 3, 90),
        phaseAngleDeg: often(0, 180, 0, 7, 90, 180),
        distanceKm: between(356_000, 407_000),
        separationDeg: often(0, 180, 0, 0.5, 8.45, 10, 180),
      }

const anyPlace = (): SkyGeometry => ({
  altitudeDeg: often(-5, 90, 0, 1e-9, 0.5, 5, 90),
  azimuthDeg: often(0, 360, 0, 360),
  sunAltitudeDeg: often(-90, 90, -90, -24, -15, -12, -5, -3, 0, 3, 5, 15, 30, 90),
  sunSeparationDeg: often(0, 180, 0, 2, 180),
  moon: anyMoon(),
})

const anyNight = (): Conditions =>
  conditionsWith({
    zenithMag: often(15, 22, 15, 22),
    extinctionMag: often(0.1, 1, 0, 1),
    seeingArcsec: often(0.5, 8, 0.5, 8),
    thinCloud: often(0, 1, 0, 1),
    noviceFactor: often(1, 8, 1, 8),
    eyes: oneOf<1 | 2>(1, 2),
    pupilMm: often(2, 8, 2, 8),
    moonGazerShare: often(0, 1, 0, 1),
    streetLight: random() < 0.3,
    glow: random() < 0.5 ? [] : [{ fromDeg: 300, toDeg: 40, brighterMag: between(0, 4) }],
  })

function anyView() {
  const apertureMm = often(20, 1500, 20, 1500)
  return viewAt(apertureMm, apertureMm / often(0.3, 10, 0.3, 10), often(0, 0.6, 0, 0.6))
}

const isShare = (value: number): boolean => value >= 0 && value <= 1 // not a number is neither

it('a million random sights have a chance and a view, at the zenith and on the horizon, in moonlight and by day', {
  timeout: 120_000,
}, () => {
  const kinds = Object.values(things)
  let [asked, seen, wrong] = [0, 0, '']
  for (let group = 0; group < GROUPS && wrong === ''; group++) {
    const [thing, view, night] = [kinds[group % kinds.length] ?? things.star, anyView(), anyNight()]
    const ask = prepare(thing, view, night)
    for (let i = 0; i < CASES; i++) {
      const place = anyPlace()
      const { chance, view: shown } = ask(place, backdropOf(place, night))
      asked++
      if (chance > 0.5) seen++
      if (isShare(chance) && isShare(shown)) continue
      wrong = JSON.stringify({ chance, shown, thing, view, night, place })
    }
    const place = anyPlace()
    const { marginMag, reasons, sky } = sighting(thing, place, view, night)
    const numbers = [marginMag, sky.magPerArcsec2, ...reasons.map(({ magnitudes = 0 }) => magnitudes)]
    if (!numbers.every(Number.isFinite)) wrong = JSON.stringify({ marginMag, sky, reasons, thing, view, night, place })
  }
  expect(wrong).toBe('')
  expect(asked).toBe(GROUPS * CASES)
  expect(seen / asked).toBeGreaterThan(0.1) // the cases are not all hopeless
  expect(seen / asked).toBeLessThan(0.9)
})
