import { dazzles, hasEarthshine } from './moon.ts'
import { type LitFeature, RELIEF_SUN_DEG } from './moon-features.ts'
import type { Reason, Scene } from './reasons.ts'
import type { MoonSubject } from './subject.ts'

const FLAT_PHASE_DEG = 25
const SHADOWS_PHASE_DEG = 50
const NAMED = 3

/** What the Moon shows tonight: shadows or none, the best things to look for, the Earth's light, glare. */
export function moonReasons(scene: Scene, moon: MoonSubject): readonly Reason[] {
  const { features = [] } = moon
  const low = features.filter(({ sunAltitudeDeg }) => sunAltitudeDeg < RELIEF_SUN_DEG)
  const high = features.filter(({ sunAltitudeDeg }) => sunAltitudeDeg >= RELIEF_SUN_DEG)
  return [
    ...lightReasons(moon),
    ...named('sight.moon-shadowed', low, 0.3),
    ...(isFlat(moon) ? named('sight.moon-rays', high, 0.2) : []),
    ...(hasEarthshine(moon, scene.sky.totalCd) ? [{ code: 'sight.earthshine', magnitudes: 0.2 }] : []),
    ...(dazzles(moon, scene.view) ? [{ code: 'sight.moon-glare', magnitudes: 0.2 }] : []),
  ]
}

const isFlat = ({ phaseAngleDeg }: MoonSubject): boolean => Math.abs(phaseAngleDeg) < FLAT_PHASE_DEG

function lightReasons(moon: MoonSubject): readonly Reason[] {
  if (isFlat(moon)) return [{ code: 'sight.flat-moon', magnitudes: 0.5 }]
  return Math.abs(moon.phaseAngleDeg) > SHADOWS_PHASE_DEG ? [{ code: 'sight.long-shadows', magnitudes: 0.1 }] : []
}

function named(code: string, features: readonly LitFeature[], magnitudes: number): readonly Reason[] {
  if (features.length === 0) return []
  const names = features
    .slice(0, NAMED)
    .map(({ name }) => name)
    .join(', ')
  return [{ code, values: { names }, magnitudes }]
}
