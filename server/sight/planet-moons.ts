import type { JupiterMoon } from '../sky/jupiter.ts'
import { chanceAt } from './chance.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'

/** A moon beside a planet, seen as a star. */
export interface PlanetMoon {
  readonly name: string
  readonly magnitude: number
  /** From the middle of the disc, in arcseconds; null where its place is not reckoned. */
  readonly offArcsec: number | null
  /** Beside the disc, before it, or behind it or in its shadow. */
  readonly state: 'beside' | 'before' | 'hidden'
  /** Its shadow lies on the disc. */
  readonly castsShadow: boolean
}

/** V of each moon at 1 au from Sun and Earth, less V of Jupiter there: -9.395 (Mallama & Hilton 2018); the moons' own -1.68, -1.41, -2.09, -1.05 from memory. */
const FAINTER_THAN_JUPITER_MAG = { Io: 7.72, Europa: 7.99, Ganymede: 7.31, Callisto: 8.35 } as const

/** Jupiter's four bright moons as they stand beside a disc of this magnitude and equatorial diameter. */
export const moonsOfJupiter = (
  { magnitude, diameterArcsec }: { readonly magnitude: number; readonly diameterArcsec: number },
  moons: readonly JupiterMoon[],
): readonly PlanetMoon[] =>
  moons.map(({ name, xRadii, yRadii, isInFront, isHidden, castsShadow }) => ({
    name,
    magnitude: magnitude + FAINTER_THAN_JUPITER_MAG[name],
    offArcsec: (Math.hypot(xRadii, yRadii) * diameterArcsec) / 2,
    state: isHidden ? 'hidden' : isInFront ? 'before' : 'beside',
    castsShadow,
  }))

const TITAN_MAG = -1.28 // at 1 au from Sun and Earth; from memory
const SATURN_MAG = -8.914 // and the ring's share: Mallama & Hilton 2018

/** Titan beside a Saturn of this magnitude and ring: nearly always clear of the rings, 3 arcminutes off at most; its place is not reckoned. */
export function titan(saturn: {
  readonly magnitude: number
  readonly phaseAngleDeg: number
  readonly ringMajorArcsec: number
  readonly ringMinorArcsec: number
}): PlanetMoon {
  const { magnitude, phaseAngleDeg: phase, ringMajorArcsec, ringMinorArcsec } = saturn
  const sine = ringMinorArcsec / Math.max(1, ringMajorArcsec)
  const ring = 1.825 * sine + 0.378 * sine * Math.exp(-2.25 * phase)
  const far = magnitude - SATURN_MAG + ring - 0.026 * phase
  return { name: 'Titan', magnitude: TITAN_MAG + far, offArcsec: null, state: 'beside', castsShadow: false }
}

const GAP_ARCSEC = 240 // apparent distance from the limb at which a newcomer sees a dot of its own; from memory
const GAP_BLURS = 1.5 // and in widths of a star's image (a choice)
const COMFORTABLE_MAG = 0.6

/**
 * Magnitudes that the planet's glare takes from a star so many apparent arcminutes off: the eye's veil of 10 E / angle^2
 * (E in lux, angle in degrees; Holladay 1926, Stiles 1929) for Jupiter in 100 mm on Crumey's curve, as two straight lines.
 */
export function glareMag(apparentArcmin: number): number {
  const tenfolds = Math.log10(Math.max(1, apparentArcmin) / 50)
  return Math.max(1.3 - 3.2 * tenfolds, 1.6 - 0.8 * tenfolds, 0)
}

/** By how many magnitudes a moon stands above what half of the newcomers see; -99 when it is before the disc or hidden. */
export function moonMargin(moon: PlanetMoon, discArcsec: number, view: View, limit: Limit): number {
  if (moon.state !== 'beside') return -99
  if (moon.offArcsec === null) return limit.starMag - moon.magnitude
  const light = limit.starMag - moon.magnitude - glareMag((moon.offArcsec * view.powerX) / 60)
  const gap = Math.max(0.01, moon.offArcsec - discArcsec / 2)
  const wide = Math.min((gap * view.powerX) / GAP_ARCSEC, gap / (GAP_BLURS * limit.blurArcsec))
  return Math.min(light, COMFORTABLE_MAG + 5 * Math.log10(wide))
}

/** How many of the moons a newcomer sees as dots beside the disc, on average. */
export const moonsSeen = (moons: readonly PlanetMoon[], discArcsec: number, view: View, limit: Limit): number =>
  moons.reduce((sum, moon) => sum + chanceAt(moonMargin(moon, discArcsec, view, limit)), 0)
