import { detailArcsec, discDetail, dispersionArcsec, widthArcsec } from './planet.ts'
import { moonMargin, moonsSeen, type PlanetMoon } from './planet-moons.ts'
import { rounded } from './ramp.ts'
import type { Reason, Scene } from './reasons.ts'
import type { PlanetSubject } from './subject.ts'

const DISC_ARCMIN = 30 // apparent width under which a newcomer sees a dot
const PHASE_ARCMIN = 8 // and from which a bite out of the disc can be told (3 to 4 for each half); from memory
const RING_THIN = 0.08
const SOFT_ARCSEC = 4
const SHADOW_ARCSEC = 1.7 // a shadow is 1 to 1.5 arcseconds wide and black on bright, so it shows a little under the limit (a choice)
const COLOURS_ARCSEC = 1
/** How far detail must show before it is spoken of. */
const TOLD = 0.35
const FULL_ENOUGH = 0.92
const CRESCENT = 0.4

/** What a planet shows or hides in this tube, at this power and height. */
export function planetReasons(scene: Scene, planet: PlanetSubject): readonly Reason[] {
  return [
    ...powerReasons(scene, planet),
    ...airReasons(scene),
    ...faceReasons(scene, planet),
    ...moonReasons(scene, planet),
  ]
}

function powerReasons({ view }: Scene, planet: PlanetSubject): readonly Reason[] {
  const arcmin = (widthArcsec(planet) * view.powerX) / 60
  if (arcmin >= DISC_ARCMIN) return []
  const needs = Math.ceil((DISC_ARCMIN * 60) / widthArcsec(planet))
  const values = { power: Math.round(view.powerX), needs }
  return [{ code: 'sight.low-power', values, magnitudes: 2.5 * Math.log10(DISC_ARCMIN / arcmin) }]
}

function airReasons({ limit: { blurArcsec, altitudeDeg } }: Scene): readonly Reason[] {
  const altitude = Math.round(altitudeDeg)
  const spread = dispersionArcsec(altitudeDeg)
  const soft = { code: 'sight.unsteady', values: { arcsec: rounded(blurArcsec), altitude }, magnitudes: blurArcsec / 4 }
  const colours = { code: 'sight.colour-fringe', values: { altitude }, magnitudes: spread / 4 }
  return [...(blurArcsec > SOFT_ARCSEC ? [soft] : []), ...(spread > COLOURS_ARCSEC ? [colours] : [])]
}

function faceReasons(scene: Scene, planet: PlanetSubject): readonly Reason[] {
  const shows = discDetail(planet, scene.view, scene.limit) > TOLD
  switch (planet.body) {
    case 'saturn':
      return ringReasons(planet, shows)
    case 'jupiter':
      return [shows ? { code: 'sight.stripes', magnitudes: 0.1 } : { code: 'sight.no-stripes', magnitudes: 0.3 }]
    case 'mars':
    case 'venus':
    case 'mercury':
      return phaseReasons(scene, planet)
    default:
      return []
  }
}

function ringReasons({ ringMajorArcsec, ringMinorArcsec }: PlanetSubject, shows: boolean): readonly Reason[] {
  if (ringMinorArcsec < RING_THIN * ringMajorArcsec) return [{ code: 'sight.ring-thin', magnitudes: 0.5 }]
  return shows ? [{ code: 'sight.ring-open', magnitudes: 0.1 }] : []
}

function phaseReasons({ view }: Scene, { litFraction, diameterArcsec }: PlanetSubject): readonly Reason[] {
  const percent = Math.round(100 * litFraction)
  if (litFraction > FULL_ENOUGH || (diameterArcsec * view.powerX) / 60 < PHASE_ARCMIN) return []
  return [{ code: litFraction < CRESCENT ? 'sight.crescent' : 'sight.phase', values: { percent }, magnitudes: 0.1 }]
}

function moonReasons({ view, limit }: Scene, { body, moons = [], diameterArcsec }: PlanetSubject): readonly Reason[] {
  if (body === 'saturn') return moons.some((moon) => moonMargin(moon, diameterArcsec, view, limit) > 0) ? [TITAN] : []
  const count = Math.round(moonsSeen(moons, diameterArcsec, view, limit))
  const dots = { code: 'sight.moons-beside', values: { count }, magnitudes: 0.2 }
  const isSharp = detailArcsec(view.optics.apertureMm, limit.blurArcsec, limit.altitudeDeg) < SHADOW_ARCSEC
  return [...(count > 0 ? [dots] : []), ...moons.flatMap(awayReason), ...(isSharp ? moons.flatMap(shadowReason) : [])]
}

const shadowReason = ({ name, castsShadow }: PlanetMoon): readonly Reason[] =>
  castsShadow ? [{ code: 'sight.moon-shadow', values: { name }, magnitudes: 0.15 }] : []

const TITAN: Reason = { code: 'sight.titan', magnitudes: 0.05 }

const AWAY_CODES = { before: 'sight.moon-before', hidden: 'sight.moon-hidden' } as const

const awayReason = ({ name, state }: PlanetMoon): readonly Reason[] =>
  state === 'beside' ? [] : [{ code: AWAY_CODES[state], values: { name }, magnitudes: 0.05 }]
