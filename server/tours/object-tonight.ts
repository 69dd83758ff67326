import type { Sighting } from '../sight/sighting.ts'
import { sighting } from '../sight/sighting.ts'
import { type SkyParts, skyBrightness } from '../sight/sky-brightness.ts'
import { clamp } from '../sky/angles.ts'
import { type ClearSpan, clearSpans } from './clear-spans.ts'
import type { EveningSky } from './evening.ts'
import { conditionsOf, type EveningChance, seenAtStep } from './evening-chance.ts'
import { gridOf } from './grid-make.ts'
import { nightHours, quarterHours } from './hours.ts'
import type { Night, Station } from './night.ts'
import { type Findings, verdictOf } from './object-verdict.ts'
import { whyNotOf } from './offered.ts'
import { geometryAtStep, stepAt } from './sky-at.ts'
import { subjectOf } from './subject.ts'
import type { Aim, ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Cause, Remark, Setup, Stop, Tour } from './tour.ts'
import { byEyeOf, type WalkPoint, walkOf } from './walks.ts'

/** What a newcomer would see at one quarter hour, and what bars the telescope from it then. */
interface ChanceAt {
  readonly at: Date
  readonly chance: number
  readonly view: number
  readonly cause: Cause | null
}

/** One object at one telescope through the evening; `bestAt` is its best quarter there, `sighting` what is seen then. */
export interface StationTonight {
  readonly stationId: string
  readonly aim: Aim
  readonly setup: Setup
  /** The second look through the other tube of the mount; null where there is none. */
  readonly beside: Setup | null
  readonly quarters: readonly ChanceAt[]
  readonly bestAt: Date
  readonly sighting: Sighting
  readonly stops: readonly Pick<Stop, 'startsAt' | 'endsAt'>[]
}

/** Everything that is known of one object on one night; `sky` is null while it is below the horizon at `at`. */
export interface ObjectTonight {
  readonly targetKey: string
  readonly at: Date
  readonly walk: readonly WalkPoint[]
  /** For a bare eye: clear of the Sun, of trees and roofs, and 10 degrees high; no mount limits it. */
  readonly clear: readonly ClearSpan[]
  readonly sky: SkyParts | null
  readonly stations: readonly StationTonight[]
  /** Why it is, or is not, on the programme. */
  readonly verdict: readonly Remark[]
}

export interface TonightInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly tour: Pick<Tour, 'stops' | 'spares'> | null
  readonly object: ShowObject
  /** The moment for the sky's parts; null takes the best one of the evening. */
  readonly at: Date | null
}

/** One object on one night: its walk, when it is clear, what every telescope shows of it, and why it is or is not on the programme. */
export function objectTonight(input: TonightInput): ObjectTonight {
  const { night, sky, object } = input
  const { opensAt, closesAt } = nightHours(night)
  const findings = findingsOf(input, () => gridOf({ ...input, keepKeys: [object.key] }))
  const { targetIndex, stations } = findings
  const { walk, clear } = walkOf(input, targetIndex)
  const at = momentOf(input, stations, opensAt, closesAt)
  const geometry = geometryAtStep(sky, targetIndex, wholeStep(sky, at))
  return {
    targetKey: object.key,
    at,
    walk,
    clear,
    sky: geometry.altitudeDeg > 0 ? skyBrightness(geometry, conditionsOf(night)) : null,
    stations,
    verdict: verdictOf(input, findings),
  }
}

/** What the verdict on an object goes by; `grid` is asked for only where the verdict hangs on what is shown instead. */
export function findingsOf(input: TonightInput, grid: Findings['grid']): Findings {
  const { night, sky, object } = input
  const { opensAt, closesAt } = nightHours(night)
  const targetIndex = sky.targetKeys.indexOf(object.key)
  if (targetIndex < 0) throw new RangeError(`${object.key} is not in the sky of this evening.`)
  const byEye = byEyeOf(input, targetIndex)
  const clear = clearSpans(sky, byEye, opensAt, closesAt)
  return { targetIndex, byEye, clear, stations: stationsOf(input, targetIndex), grid }
}

const wholeStep = (sky: EveningSky, at: Date): number => clamp(Math.round(stepAt(sky, at)), 0, sky.count - 1)

/** The moment asked for, kept to the public hours, else the best one at any telescope. */
function momentOf(input: TonightInput, stations: readonly StationTonight[], opensAt: Date, closesAt: Date): Date {
  if (input.at !== null) return new Date(clamp(input.at.getTime(), opensAt.getTime(), closesAt.getTime()))
  return stations.toSorted((a, b) => meritOf(b.sighting) - meritOf(a.sighting))[0]?.bestAt ?? opensAt
}

const meritOf = ({ chance, view }: Pick<ChanceAt, 'chance' | 'view'>): number => chance * view

function stationsOf(input: TonightInput, targetIndex: number): readonly StationTonight[] {
  const { night, chance } = input
  return night.stations.flatMap((station) => {
    const row = chance.stationIds.indexOf(station.id)
    if (station.telescope === null || row < 0) return []
    const { telescope } = station
    return chance.candidates.flatMap((candidate, column) => {
      const cell = row * chance.candidates.length + column
      const [setup, beside] = [chance.setups[cell] ?? null, chance.besides[cell] ?? null]
      if (candidate.targetIndex !== targetIndex || setup === null) return []
      return stationOf(input, { station, telescope, targetIndex, row, column, aim: candidate.aim, setup, beside })
    })
  })
}

interface Place {
  readonly station: Station
  readonly telescope: Telescope
  readonly targetIndex: number
  readonly row: number
  readonly column: number
  readonly aim: Aim
  readonly setup: Setup
  readonly beside: Setup | null
}

function stationOf(input: TonightInput, place: Place): StationTonight[] {
  const { night, sky, chance, tour, object } = input
  const { station, telescope, targetIndex, aim, setup, beside } = place
  const whyNot = whyNotOf({ sky, site: night.site, mount: telescope }, targetIndex)
  const quarters = quarterHours(night).map((at) => {
    const step = stepAt(sky, at)
    return { at, ...seenAtStep(chance, place.row, place.column, Math.round(step)), cause: whyNot(step) }
  })
  const best = quarters.toSorted(
    (a, b) => Number(b.cause === null) - Number(a.cause === null) || meritOf(b) - meritOf(a),
  )[0]
  const optics = telescope.tubes.find(({ id }) => id === setup.tubeId)
  const subject = subjectOf(object, sky)
  if (best === undefined || optics === undefined || subject === null) return []
  const view = {
    powerX: setup.powerX,
    trueFieldDeg: setup.trueFieldDeg,
    exitPupilMm: optics.apertureMm / setup.powerX,
    optics,
  }
  const seen = sighting(subject, geometryAtStep(sky, targetIndex, wholeStep(sky, best.at)), view, conditionsOf(night))
  const stops = (tour?.stops ?? []).filter(
    (stop) => stop.stationId === station.id && stop.targetKey === object.key && stop.aim === aim,
  )
  return [{ stationId: station.id, aim, setup, beside, quarters, bestAt: best.at, sighting: seen, stops }]
}
