import { degrees, radians, separationDeg } from '../../server/sky/angles.ts'
import { type RankPass, rankPass, type SkyPass, skyPass, starVectors } from '../../server/sky/pass.ts'
import type { Place } from '../../server/sky/place.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { trueAltitudeDeg } from '../../server/sky/refraction.ts'
import type { StarPlace } from '../../server/sky/star.ts'
import { passStarByStar } from './baseline-pass.ts'
import { medianMs, ROUNDS } from './median.ts'

const ROWS = 30_000
const BASELINE_ROWS = 300
const SLOTS = 60
const LEAST_ALTITUDE_DEG = 20
const PLACE: Place = { latitudeDeg: 48.3, longitudeDeg: 11.2, heightM: 520 }
const FIRST_AT = Date.UTC(2026, 3, 10, 18)
const ALLOWED = { arcsec: 1, airmassShare: 0.001, speedFull: 25, speedRank: 150 }

/** Stars without motion of their own, which the baseline does not know, spread evenly over the sky. */
function evenStars(count: number): StarPlace[] {
  const random = seededRandom(20_260_410)
  return Array.from({ length: count }, () => ({
    raDeg: 360 * random(),
    decDeg: degrees(Math.asin(2 * random() - 1)),
    pmRaMasYr: 0,
    pmDecMasYr: 0,
    parallaxMas: 0,
  }))
}

const everyTenMinutes = (): Date[] => Array.from({ length: SLOTS }, (_, slot) => new Date(FIRST_AT + slot * 600_000))

/** Largest distance on the sky in arcseconds and largest relative difference in airmass of the rows both have. */
function differences(ours: SkyPass, theirs: SkyPass): { arcsec: number; airmassShare: number } {
  let [arcsec, airmassShare] = [0, 0]
  for (let slot = 0; slot < SLOTS; slot++) {
    for (let row = 0; row < BASELINE_ROWS; row++) {
      const [here, there] = [slot * ROWS + row, slot * BASELINE_ROWS + row]
      const value = (columns: Float64Array, index: number): number => columns[index] ?? Number.NaN
      const apartDeg = separationDeg(
        value(ours.azimuthDeg, here),
        value(ours.altitudeDeg, here),
        value(theirs.azimuthDeg, there),
        value(theirs.altitudeDeg, there),
      )
      arcsec = Math.max(arcsec, 3600 * apartDeg)
      airmassShare = Math.max(airmassShare, Math.abs(value(ours.airmass, here) / value(theirs.airmass, there) - 1))
    }
  }
  return { arcsec, airmassShare }
}

/** Rows whose count of slots or whose best altitude (to 0.5", 1e-6 of its sine) is not that of the full table. */
function rankMisses(ours: SkyPass, ranks: RankPass): number {
  let misses = 0
  for (let row = 0; row < ROWS; row++) {
    let [count, best] = [0, -90]
    for (let slot = 0; slot < SLOTS; slot++) {
      const altitudeDeg = ours.altitudeDeg[slot * ROWS + row] ?? Number.NaN
      if (altitudeDeg >= LEAST_ALTITUDE_DEG) count++
      if (altitudeDeg > best) best = altitudeDeg
    }
    const sineMiss = Math.abs(Math.sin(radians(trueAltitudeDeg(best))) - (ranks.maxSinAltitude[row] ?? Number.NaN))
    if (count !== ranks.slotsAbove[row] || !(sineMiss < 1e-6)) misses++
  }
  return misses
}

const say = (line: string): void => console.log(`pass: ${line}`)

/** Compares the whole-catalogue pass with the star-by-star way, first the results and then the times, and prints both. */
export async function benchPass(): Promise<void> {
  const [stars, instants] = [evenStars(ROWS), everyTenMinutes()]
  const few = stars.slice(0, BASELINE_ROWS)
  const vectors = starVectors(stars, new Date(FIRST_AT))
  const full = skyPass(vectors, instants, PLACE)
  const { arcsec, airmassShare } = differences(full, passStarByStar(few, instants, PLACE))
  const misses = rankMisses(full, rankPass(vectors, instants, PLACE, LEAST_ALTITUDE_DEG))
  say(
    `largest difference ${arcsec.toFixed(3)}" and ${(100 * airmassShare).toFixed(4)} % airmass; ${misses} ranks differ`,
  )
  if (!(arcsec < ALLOWED.arcsec && airmassShare < ALLOWED.airmassShare && misses === 0)) {
    throw new Error('pass: the results differ, so the times mean nothing')
  }
  const baselineMs = medianMs(() => passStarByStar(few, instants, PLACE)) * (ROWS / BASELINE_ROWS)
  const fullMs = medianMs(() => skyPass(vectors, instants, PLACE))
  const rankMs = medianMs(() => rankPass(vectors, instants, PLACE, LEAST_ALTITUDE_DEG))
  say(`${ROWS} rows x ${SLOTS} instants, median of ${ROUNDS}`)
  say(`star by star ${baselineMs.toFixed(0)} ms (${BASELINE_ROWS} rows, scaled)`)
  say(
    `full pass ${fullMs.toFixed(1)} ms, ${(baselineMs / fullMs).toFixed(0)} times faster (demand ${ALLOWED.speedFull})`,
  )
  say(`ranking ${rankMs.toFixed(1)} ms, ${(baselineMs / rankMs).toFixed(0)} times faster (demand ${ALLOWED.speedRank})`)
}
