import { type Aid, bareEyes, binoculars } from './beside-aids.ts'
import type { BesideHalf, BesideKind, BesideLine, HalfHourSpan } from './beside-lines.ts'
import { passesInHalf } from './beside-passes.ts'
import { elsewhereIn, promptIn } from './beside-questions.ts'
import { pictureIn } from './beside-screen.ts'
import { type Sight, sightsForBinoculars, sightsForEyes } from './beside-sights.ts'
import { binocularLines, eyeLines } from './beside-sky-lines.ts'
import type { EveningSky } from './evening.ts'
import { halfHourStarts, instantOf, nightHours } from './hours.ts'
import type { Night, Station } from './night.ts'
import { sunCause } from './offered.ts'
import type { PassingThing } from './own-pass.ts'
import { stepAt, sunAtStep } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Stop } from './tour.ts'

export interface BesideInput {
  readonly night: Night
  /** The whole list, sights for bare eyes and showers among it, and a sky that holds them. */
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  /** What the telescopes show; [] without a programme. */
  readonly stops: readonly Stop[]
  /** What of the host's own things passes over that night. */
  readonly passes: readonly PassingThing[]
}

/** The stations of a row that are no telescope. */
export const besideStations = ({ stations }: Pick<Night, 'stations'>): readonly BesideStation[] =>
  stations.filter(isBeside)

export type BesideStation = Station & { readonly kind: BesideKind }

/** True for a station that is no telescope. */
export const isBeside = (station: Station): station is BesideStation => station.kind !== 'telescope'

/** The half hours of the public hours, from the opening to the closing without a gap. */
export function halfHourSpans(night: Night): readonly HalfHourSpan[] {
  const { closesAt } = nightHours(night)
  const starts = halfHourStarts(night).map((start) => instantOf(night, start))
  return starts.map((fromAt, i) => ({ fromAt, toAt: starts[i + 1] ?? closesAt }))
}

/**
 * What every station that is no telescope shows in every half hour, station by station in the order of the row; [] for a
 * row of telescopes alone. It pauses now and then, so that a caller may do something else.
 */
export function* besideTelescopes(input: BesideInput): Generator<undefined, readonly BesideHalf[]> {
  const stations = besideStations(input.night)
  const kinds = new Set(stations.map(({ kind }) => kind))
  const eyes = bareEyes(input.night)
  const glass = binoculars(input.night)
  const ready: Ready = {
    ...input,
    eyes: { aid: eyes, sights: kinds.has('bare-eye') ? yield* sightsForEyes(input, eyes) : [] },
    glass: { aid: glass, sights: kinds.has('binoculars') ? yield* sightsForBinoculars(input, glass) : [] },
  }
  const memories = new Map<BesideKind, Memory>()
  const halves: BesideHalf[] = []
  for (const station of questionsLast(stations)) {
    yield
    const memory = memories.get(station.kind) ?? { shown: new Map(), given: [], others: [...halves] }
    memories.set(station.kind, memory)
    for (const [number, half] of halfHourSpans(input.night).entries())
      halves.push(halfOf(ready, station, half, number, memory))
  }
  const place = ({ stationId }: BesideHalf) => stations.findIndex(({ id }) => id === stationId)
  return halves.sort((a, b) => place(a) - place(b))
}

/** A question table tells what the others show. */
const questionsLast = (stations: readonly BesideStation[]): readonly BesideStation[] =>
  stations.toSorted((a, b) => Number(a.kind === 'questions') - Number(b.kind === 'questions'))

interface Seen {
  readonly aid: Aid
  readonly sights: readonly Sight[]
}

interface Ready extends BesideInput {
  readonly eyes: Seen
  readonly glass: Seen
}

/** What stations of one kind have shown so far, by key the half hours, and in order; and what was shown at others before them. */
interface Memory {
  readonly shown: Map<string, number[]>
  readonly given: string[]
  readonly others: readonly BesideHalf[]
}

function halfOf(input: Ready, station: BesideStation, half: HalfHourSpan, number: number, memory: Memory): BesideHalf {
  const lines = LINES[station.kind](input, half, number, memory)
  for (const line of lines) remember(memory, line, number)
  return {
    stationId: station.id,
    kind: station.kind,
    ...half,
    lines,
    note: lines.length > 0 ? null : noteOf(input, station.kind, half),
  }
}

type LinesOf = (input: Ready, half: HalfHourSpan, number: number, memory: Memory) => readonly BesideLine[]

const LINES: Readonly<Record<BesideKind, LinesOf>> = {
  'bare-eye': (input, half, number, { shown }) => [
    ...passesInHalf({ ...input, aid: input.eyes.aid }, half, number === 0),
    ...eyeLines({ ...input, ...input.eyes, before: shown }, half, number),
  ],
  binoculars: (input, half, number, { shown }) =>
    binocularLines({ ...input, ...input.glass, before: shown }, half, number),
  screen: (input, half, _number, { given }) => {
    const picture = pictureIn({ ...input, before: given }, half)
    return picture === null ? [] : [picture]
  },
  questions: (input, half, number, { given, others }) => [
    ...passesInHalf({ ...input, aid: input.eyes.aid }, half, number === 0),
    ...elsewhereIn({ ...input, others, before: given }, half),
    promptIn({ ...input, others, before: given }, half),
  ],
}

function remember({ shown, given }: Memory, line: BesideLine, number: number): void {
  if (line.what === 'sight') shown.set(line.targetKey, [...(shown.get(line.targetKey) ?? []), number])
  if (line.what === 'picture') given.push(line.targetKey)
  if (line.what === 'prompt') given.push(line.remark.code)
}

function noteOf({ sky }: Ready, kind: BesideKind, { fromAt, toAt }: HalfHourSpan): Remark {
  if (kind === 'screen') return { code: 'beside.no-picture' }
  const middle = (stepAt(sky, fromAt) + stepAt(sky, toAt)) / 2
  return { code: sunCause(sunAtStep(sky, middle)) === null ? 'beside.nothing-there' : 'beside.sun' }
}
