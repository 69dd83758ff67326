import { eyepieceHeight, isForChair, isForChild } from './eyepiece-height.ts'
import type { Grid, GridCandidate, GridStation } from './grid.ts'
import type { GridInput } from './grid-make.ts'
import { looksPerHour } from './line.ts'
import { changeEyepieceMin, movingMin } from './moving.ts'
import type { Night } from './night.ts'
import { apartDeg, stepAt, targetAtStep } from './sky-at.ts'
import { OBJECT_KINDS } from './target.ts'
import type { Telescope } from './telescope.ts'

const USUAL_ALTITUDE_DEG = 40
/** A telescope so many times as wide as the smallest of the row is large (our judgement). */
const LARGE_RATIO = 3
const HALF_HOUR_MS = 1_800_000

/** The telescopes of the row in its order, each with whom it suits. */
export function rowOf(night: Night, stationIds: readonly string[]): readonly GridStation[] {
  const isMarked = night.stations.some((station) => station.isForChildren && station.telescope !== null)
  const row = night.stations.flatMap(({ id, telescope, isForChildren }, place) =>
    telescope === null || !stationIds.includes(id) ? [] : [{ id, telescope, isForChildren, place }],
  )
  const apertures = row.map(({ telescope }) => Math.max(...telescope.tubes.map((tube) => tube.apertureMm)))
  const least = Math.min(...apertures)
  return row.map((station, s) => {
    const aperture = apertures[s] ?? least
    return {
      ...station,
      isForChildren: isMarked ? station.isForChildren : reaches(station.telescope, isForChild),
      isForChair: reaches(station.telescope, (height) => isForChair(height, station.telescope)),
      isDriftBeside:
        station.telescope.mount === 'altaz-hand' && row.some(({ telescope }) => telescope.mount !== 'altaz-hand'),
      smaller: apertures.flatMap((other, i) => (other < aperture ? [i] : [])),
      bigness: Math.min(1, Math.log(aperture / least) / Math.log(LARGE_RATIO)),
    }
  })
}

function reaches(telescope: Telescope, isGood: (height: ReturnType<typeof eyepieceHeight>) => boolean): boolean {
  return telescope.tubes.some((tube) => isGood(eyepieceHeight(telescope, tube, USUAL_ALTITUDE_DEG)))
}

/** Looks lost by going from one candidate to another at each station, the way between them taken in mid-evening. */
export function movingTable(
  { sky, night }: GridInput,
  stations: readonly GridStation[],
  candidates: readonly GridCandidate[],
  borders: readonly Date[],
): Float64Array {
  const middleAt = borders[borders.length >> 1]
  const step = middleAt === undefined ? 0 : stepAt(sky, middleAt)
  const places = candidates.map(({ targetIndex }) => targetAtStep(sky, targetIndex, step))
  const table = new Float64Array(stations.length * candidates.length ** 2)
  const looksPerMin = looksPerHour(night.settings.cycleSec) / 60
  for (const [s, { telescope }] of stations.entries()) {
    for (const [a, from] of candidates.entries()) {
      for (const [b, to] of candidates.entries()) {
        const [fromPlace, toPlace] = [places[a], places[b]]
        if (a === b || fromPlace === undefined || toPlace === undefined) continue
        const isSame = from.targetIndex === to.targetIndex
        const minutes = isSame ? changeEyepieceMin() : movingMin(telescope.mount, to.kind, apartDeg(fromPlace, toPlace))
        table[(s * candidates.length + a) * candidates.length + b] = minutes * looksPerMin
      }
    }
  }
  return table
}

/** By slot: true when some station can show the Moon for the whole of it. */
export function moonBySlot(
  candidates: readonly GridCandidate[],
  worth: Float64Array,
  stations: number,
  slots: number,
): readonly boolean[] {
  return Array.from({ length: slots }, (_, t) =>
    candidates.some(
      ({ kind }, c) =>
        kind === 'moon' &&
        Array.from({ length: stations }).some((_, s) => (worth[(s * candidates.length + c) * slots + t] ?? 0) > 0),
    ),
  )
}

/** 1 at candidate * slots + slot for the three targets with the highest chance x view x appeal anywhere in its half hour by the clock. */
export function bestCells(
  candidates: readonly GridCandidate[],
  quality: Float64Array,
  stations: number,
  borders: readonly Date[],
): Uint8Array {
  const slots = borders.length - 1
  const halves = borders.slice(0, slots).map((at) => Math.floor(at.getTime() / HALF_HOUR_MS))
  const isBest = new Uint8Array(candidates.length * slots)
  for (const [t, half] of halves.entries()) {
    const best = new Map<number, number>()
    for (const [c, { targetIndex }] of candidates.entries()) {
      for (let cell = 0; cell < stations * slots; cell++) {
        const [s, other] = [Math.floor(cell / slots), cell % slots]
        const value = halves[other] === half ? (quality[(s * candidates.length + c) * slots + other] ?? 0) : 0
        if (value > (best.get(targetIndex) ?? 0)) best.set(targetIndex, value)
      }
    }
    const three = [...best].sort((a, b) => b[1] - a[1] || a[0] - b[0]).slice(0, 3)
    for (const [c, { targetIndex }] of candidates.entries()) {
      if (three.some(([index]) => index === targetIndex)) isBest[c * slots + t] = 1
    }
  }
  return isBest
}

/** Small numbers that stand for targets and kinds. */
export function numbersOf(candidates: readonly GridCandidate[]): Pick<Grid, 'targetOf' | 'targets' | 'kindOf'> {
  const indices = [...new Set(candidates.map(({ targetIndex }) => targetIndex))]
  return {
    targetOf: Int16Array.from(candidates, ({ targetIndex }) => indices.indexOf(targetIndex)),
    targets: indices.length,
    kindOf: Uint8Array.from(candidates, ({ kind }) => OBJECT_KINDS.indexOf(kind)),
  }
}

/** By station and slot: the candidates on offer, the worthiest first. */
export function rankedCells(
  worth: Float64Array,
  stations: number,
  candidates: number,
  slots: number,
): readonly Int16Array[] {
  const worthAt = (s: number, c: number, t: number) => worth[(s * candidates + c) * slots + t] ?? 0
  return Array.from({ length: stations * slots }, (_, cell) => {
    const [s, t] = [Math.floor(cell / slots), cell % slots]
    const offered = Array.from({ length: candidates }, (_, c) => c).filter((c) => worthAt(s, c, t) > 0)
    return Int16Array.from(offered.sort((a, b) => worthAt(s, b, t) - worthAt(s, a, t) || a - b))
  })
}
