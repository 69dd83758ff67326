import { comfortableArcsec, splitMargin, splittingPower } from './double.ts'
import { framesDeg } from './frame.ts'
import { brightestGiantsMag } from './globular.ts'
import { clusterStars, starsSeen } from './open-cluster.ts'
import { widthArcsec } from './planet.ts'
import { rounded } from './ramp.ts'
import type { Reason, Scene } from './reasons.ts'
import type { DoubleSubject, MoonSubject, PlanetSubject } from './subject.ts'

const BRIGHT_MAG = 1.5
const FAINT_MAG = 0.6
const SMUDGE_VIEW = 0.45
const DISC_ARCMIN = 30 // apparent width under which a newcomer sees a dot
const RING_THIN = 0.08

/** What lies in the thing itself, in the tube and in the power. */
export function subjectReasons(scene: Scene): readonly Reason[] {
  return [...marginReasons(scene), ...fieldReasons(scene), ...kindReasons(scene)]
}

function marginReasons({ impression, limit }: Scene): readonly Reason[] {
  const { lightMag } = impression
  if (lightMag >= BRIGHT_MAG)
    return [{ code: 'sight.bright', values: { mag: rounded(lightMag) }, magnitudes: Math.min(lightMag, 9) }]
  if (lightMag >= FAINT_MAG) return []
  return [
    {
      code: 'sight.faint',
      values: { mag: rounded(Math.abs(lightMag)), limit: rounded(limit.starMag) },
      magnitudes: FAINT_MAG - lightMag,
    },
  ]
}

function fieldReasons({ subject, view }: Scene): readonly Reason[] {
  const needsDeg = framesDeg(subject)
  const short = needsDeg / view.trueFieldDeg
  // The Moon at high power is meant to overfill the field.
  if (short <= 1.15 || subject.kind === 'moon') return []
  const values = { field: rounded(view.trueFieldDeg), needs: rounded(needsDeg) }
  return [{ code: 'sight.field-small', values, magnitudes: 2.5 * Math.log10(short) }]
}

function kindReasons(scene: Scene): readonly Reason[] {
  const { subject } = scene
  switch (subject.kind) {
    case 'double':
      return pairReasons(scene, subject)
    case 'planet':
      return planetReasons(scene, subject)
    case 'moon':
      return moonReasons(subject)
    case 'open-cluster': {
      const seen = Math.round(starsSeen(subject, clusterStars(subject), scene.view, scene.limit))
      return [{ code: 'sight.stars', values: { count: seen }, magnitudes: 0 }]
    }
    case 'globular': {
      const resolves = scene.limit.starMag > brightestGiantsMag(subject)
      return resolves ? [{ code: 'sight.partly-resolved', magnitudes: 0 }] : smudge(scene)
    }
    default:
      return subject.kind === 'star' || subject.kind === 'asterism' ? [] : smudge(scene)
  }
}

const smudge = ({ impression }: Scene): readonly Reason[] =>
  impression.view < SMUDGE_VIEW ? [{ code: 'sight.smudge', magnitudes: 0.1 }] : []

function pairReasons({ view, limit, impression }: Scene, pair: DoubleSubject): readonly Reason[] {
  const split = splitMargin(pair, view, limit)
  const companionMag = Math.max(...pair.magnitudes)
  const companion = {
    code: 'sight.companion-faint',
    values: { magnitude: rounded(companionMag), limit: rounded(limit.starMag) },
    magnitudes: 1 - impression.lightMag,
  }
  return [
    ...(split < 1.2 ? [tooClose(pair, split, { view, limit })] : []),
    ...(impression.lightMag < 1 ? [companion] : []),
  ]
}

/** Which of power, air and tube keeps the pair together. */
function tooClose(pair: DoubleSubject, split: number, { view, limit }: Pick<Scene, 'view' | 'limit'>): Reason {
  const magnitudes = 1.5 - split
  const needs = comfortableArcsec(pair, view, limit.blurArcsec)
  if (splittingPower(pair) / view.powerX > needs / pair.separationArcsec)
    return { code: 'sight.low-power', values: powers(view.powerX, splittingPower(pair)), magnitudes }
  const values = { separation: rounded(pair.separationArcsec), needs: rounded(needs) }
  const inStillAir = comfortableArcsec(pair, view, 0.5)
  return { code: needs > 1.1 * inStillAir ? 'sight.pair-seeing' : 'sight.pair-too-close', values, magnitudes }
}

const powers = (powerX: number, needsX: number) => ({ power: Math.round(powerX), needs: Math.ceil(needsX) })

function planetReasons({ view, limit }: Scene, planet: PlanetSubject): readonly Reason[] {
  const reasons: Reason[] = []
  const arcmin = (widthArcsec(planet) * view.powerX) / 60
  if (arcmin < DISC_ARCMIN) {
    const needsX = (DISC_ARCMIN * 60) / widthArcsec(planet)
    reasons.push({
      code: 'sight.low-power',
      values: powers(view.powerX, needsX),
      magnitudes: 2.5 * Math.log10(DISC_ARCMIN / arcmin),
    })
  }
  const values = { arcsec: rounded(limit.blurArcsec), altitude: Math.round(limit.altitudeDeg) }
  if (limit.blurArcsec > 4) reasons.push({ code: 'sight.unsteady', values, magnitudes: limit.blurArcsec / 4 })
  if (planet.body === 'saturn' && planet.ringMinorArcsec < RING_THIN * planet.ringMajorArcsec)
    reasons.push({ code: 'sight.ring-thin', magnitudes: 0.5 })
  return reasons
}

function moonReasons({ phaseAngleDeg }: MoonSubject): readonly Reason[] {
  const angle = Math.abs(phaseAngleDeg)
  if (angle < 25) return [{ code: 'sight.flat-moon', magnitudes: 0.5 }]
  return angle > 50 ? [{ code: 'sight.long-shadows', magnitudes: 0.1 }] : []
}
