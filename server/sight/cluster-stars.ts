import type { OpenClusterSubject } from './subject.ts'

/**
 * The stars of a cluster: the i-th brightest has magnitude brightest + log10(i) / slope, so that the number brighter
 * than m grows by 10^slope a magnitude. One law for all, chosen because it gives the Pleiades (2.9, 1.5 in all) at 0.3.
 */
export interface ClusterStars {
  /** Stars that a catalogue complete to V 7 has in it, brightest first; empty where the law alone is asked. */
  readonly known: readonly number[]
  readonly brightestMag: number
  readonly slope: number
  readonly count: number
}

const USUAL_SLOPE = 0.3
const USUAL_COUNT = 100
const SLOPE_RANGE = [0.2, 1.2] as const
const COMPLETE_TO_MAG = 7 // Hipparcos is whole so far even in crowded places (a choice)
const FIRST_WIDTH_MAG = 0.5

/** The light of all the stars in units of the brightest: the sum of i^-p for i from 1 to the count, p = 0.4 / slope (Euler-Maclaurin, good to 1 %). */
function lightOfAll(slope: number, count: number): number {
  const p = 0.4 / slope
  const area = Math.abs(p - 1) < 1e-9 ? Math.log(count) : (1 - count ** (1 - p)) / (p - 1)
  return area + (1 + count ** -p) / 2 + (p * (1 - count ** (-p - 1))) / 12
}

/** The slope at which so many stars, the brightest given, add up to the total magnitude; kept inside what clusters have. */
function slopeFor(brightestMag: number, totalMag: number, count: number): number {
  const wanted = 10 ** (0.4 * (brightestMag - totalMag))
  let [low, high]: [number, number] = [...SLOPE_RANGE]
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2
    if (lightOfAll(middle, count) < wanted) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Magnitudes of stars that are there, brightest first, a hundredth apart at least so that their number grows without jumps. */
function spaced(mags: readonly number[]): readonly number[] {
  let last = Number.NEGATIVE_INFINITY
  return mags.map((mag) => {
    last = Math.max(mag, last + 0.01)
    return last
  })
}

/** The cluster's stars: those of the catalogue to V 7, and the law for the fainter ones, from its total magnitude and what is known of them. */
export function clusterStars({
  magnitude,
  brightestStarMag,
  starCount,
  starMags = [],
}: OpenClusterSubject): ClusterStars {
  const count = Math.max(1, Math.round(starCount ?? USUAL_COUNT))
  const known = spaced(starMags)
  if (brightestStarMag !== null)
    return { known, brightestMag: brightestStarMag, slope: slopeFor(brightestStarMag, magnitude, count), count }
  const brightestMag = magnitude + 2.5 * Math.log10(lightOfAll(USUAL_SLOPE, count))
  return { known, brightestMag, slope: USUAL_SLOPE, count }
}

const byLaw = ({ brightestMag, slope }: ClusterStars, magnitude: number): number =>
  10 ** (slope * (magnitude - brightestMag))

/** How many of the cluster's stars are brighter than a magnitude, 0 to all; under one it is the chance of one. */
export function starsBrighter(stars: ClusterStars, magnitude: number): number {
  const { known, count } = stars
  if (known.length === 0) return Math.min(count, byLaw(stars, magnitude))
  if (magnitude < COMPLETE_TO_MAG) return knownBrighter(known, magnitude)
  const fainter = byLaw(stars, magnitude) - byLaw(stars, COMPLETE_TO_MAG)
  return Math.min(Math.max(count, known.length), known.length + fainter)
}

/** Straight lines between one star and the next, the first from half a magnitude before it on. */
function knownBrighter(known: readonly number[], magnitude: number): number {
  const brighter = known.findIndex((mag) => mag > magnitude)
  if (brighter < 0) return known.length
  const next = known[brighter] ?? magnitude
  const last = known[brighter - 1] ?? next - FIRST_WIDTH_MAG
  return brighter + Math.max(0, (magnitude - last) / (next - last))
}

/** The magnitude down to which the cluster has so many stars, one or more. */
export function magnitudeOfCount(stars: ClusterStars, count: number): number {
  const { known, brightestMag, slope } = stars
  if (known.length === 0) return brightestMag + Math.log10(count) / slope
  if (count > known.length)
    return brightestMag + Math.log10(count - known.length + byLaw(stars, COMPLETE_TO_MAG)) / slope
  const whole = Math.floor(count)
  const from = known[whole - 1] ?? 0
  return from + (count - whole) * ((known[whole] ?? from) - from)
}
