import { clusterStars } from './cluster-stars.ts'
import { comfortableArcsec, splitMargin, splittingPower } from './double.ts'
import { coreLead } from './galaxy.ts'
import { BALL_STARS, GRAINY_STARS, giantsBrighter } from './globular.ts'
import { moonReasons } from './moon-reasons.ts'
import { starsSeen } from './open-cluster.ts'
import { planetReasons } from './planet-reasons.ts'
import { rounded } from './ramp.ts'
import type { Reason, Scene } from './reasons.ts'
import type { CometSubject, DoubleSubject, GalaxySubject, GlobularSubject } from './subject.ts'
import { fieldReasons, marginReasons, powerReasons } from './view-reasons.ts'

const SMUDGE_VIEW = 0.45
const COLOURS_VIEW = 0.7
const CORE_LEAD_MAG = 0.5
const DIFFUSE = 3 // degrees of condensation up to and from which a coma has no middle, or a bright one
const CONDENSED = 6

/** What lies in the thing itself, in the tube and in the power. */
export function subjectReasons(scene: Scene): readonly Reason[] {
  return [...marginReasons(scene), ...fieldReasons(scene), ...powerReasons(scene), ...kindReasons(scene)]
}

function kindReasons(scene: Scene): readonly Reason[] {
  const { subject } = scene
  switch (subject.kind) {
    case 'double':
      return pairReasons(scene, subject)
    case 'planet':
      return planetReasons(scene, subject)
    case 'moon':
      return moonReasons(scene, subject)
    case 'open-cluster': {
      const seen = Math.round(starsSeen(subject, clusterStars(subject), scene.view, scene.limit))
      return [{ code: 'sight.stars', values: { count: seen }, magnitudes: 0 }]
    }
    case 'globular':
      return ballReasons(scene, subject)
    case 'galaxy':
      return [...coreReasons(scene, subject), ...smudge(scene)]
    case 'comet':
      return [...comaReasons(subject), ...smudge(scene)]
    default:
      return subject.kind === 'star' || subject.kind === 'asterism' ? [] : smudge(scene)
  }
}

function ballReasons(scene: Scene, cluster: GlobularSubject): readonly Reason[] {
  const stars = giantsBrighter(cluster, scene.limit.starMag)
  if (stars < GRAINY_STARS) return smudge(scene)
  return [{ code: stars < BALL_STARS ? 'sight.partly-resolved' : 'sight.well-resolved', magnitudes: 0 }]
}

const coreReasons = ({ view, limit }: Scene, galaxy: GalaxySubject): readonly Reason[] =>
  coreLead(galaxy, view, limit) > CORE_LEAD_MAG ? [{ code: 'sight.core', magnitudes: 0.2 }] : []

function comaReasons({ condensation }: CometSubject): readonly Reason[] {
  if (condensation <= DIFFUSE) return [{ code: 'sight.coma-diffuse', magnitudes: 0.2 }]
  return condensation >= CONDENSED ? [{ code: 'sight.coma-bright-middle', magnitudes: 0.1 }] : []
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
    ...(pair.hasColourContrast && impression.view > COLOURS_VIEW ? [{ code: 'sight.two-colours', magnitudes: 0 }] : []),
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
