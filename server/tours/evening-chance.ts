import { type Conditions, DEFAULT_CONDITIONS, pupilOfAge } from '../sight/conditions.ts'
import type { Subject } from '../sight/subject.ts'
import type { Chosen } from './chosen-setup.ts'
import { digestOf } from './digest.ts'
import { type EveningSky, MARGIN_MIN } from './evening.ts'
import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { bestMoment, bestSetup, type Moment, momentsOf, type Steps } from './setup-choice.ts'
import { stepAt } from './sky-at.ts'
import { subjectOf } from './subject.ts'
import type { Aim, ShowObject } from './target.ts'
import type { Setup } from './tour.ts'

/** A view that a station could show: an object and how close. The Moon whole and the Moon close are two. */
export interface Candidate {
  readonly targetKey: string
  /** Row of the target in the evening's sky. */
  readonly targetIndex: number
  readonly aim: Aim
}

/**
 * Chance that a newcomer sees it and how well, by station, candidate and step of the evening's sky: the value stands at
 * (station * candidates.length + candidate) * count + step, 0 where the target is down. Only the steps `from` to `to` are
 * reckoned, an hour either side of the public hours. Stations are the telescopes of the row, in its order.
 */
export interface EveningChance {
  readonly key: string
  readonly count: number
  readonly from: number
  readonly to: number
  readonly stationIds: readonly string[]
  readonly candidates: readonly Candidate[]
  /** Tube and eyepiece by station and candidate (station-major); null when it is never up in the public hours. */
  readonly setups: readonly (Setup | null)[]
  /** The same for the other tube of a mount with two, where it is worth a second look. */
  readonly besides: readonly (Setup | null)[]
  readonly chance: Float32Array
  readonly view: Float32Array
}

/** The night's sky and public as the sight floor takes them. */
export function conditionsOf({ site, settings }: Pick<Night, 'site' | 'settings'>): Conditions {
  const { extinctionMag, seeingArcsec, thinCloud, noviceFactor, moonGazerShare } = settings
  const { streetLight = false, visitorYears = null } = settings
  const pupilMm = visitorYears === null ? DEFAULT_CONDITIONS.pupilMm : pupilOfAge(visitorYears)
  const tonight = { extinctionMag, seeingArcsec, thinCloud, noviceFactor, moonGazerShare, streetLight, pupilMm }
  return { ...DEFAULT_CONDITIONS, ...tonight, zenithMag: site.skyMag, glow: site.glow }
}

/** What every telescope of the row would show of every object through the evening. */
export function eveningChance(sky: EveningSky, night: Night, objects: readonly ShowObject[]): EveningChance {
  const telescopes = night.stations.flatMap(({ id, telescope }) => (telescope === null ? [] : [{ id, telescope }]))
  const subjects = subjectsOf(sky, objects)
  const steps = stepsOf(sky, night)
  const conditions = conditionsOf(night)
  const size = telescopes.length * subjects.length
  const table = { chance: new Float32Array(size * sky.count), view: new Float32Array(size * sky.count) }
  const setups = new Array<Setup | null>(size).fill(null)
  const besides = new Array<Setup | null>(size).fill(null)
  for (const [column, { subject, candidate }] of subjects.entries()) {
    const moments = momentsOf(sky, candidate.targetIndex, steps, conditions)
    for (const [s, { telescope }] of telescopes.entries()) {
      const best = bestMoment(moments, sky, telescope, steps)
      const chosen = best === null ? null : bestSetup(telescope, subject, candidate.aim, best, conditions)
      const row = s * subjects.length + column
      if (chosen === null || isSameView(setups[row - 1], chosen.setup, candidate.aim)) continue
      setups[row] = chosen.setup
      besides[row] = chosen.beside
      fillRow(moments, row * sky.count, table, chosen.ask)
    }
  }
  return {
    key: chanceKey(sky, night),
    count: sky.count,
    from: steps.from,
    to: steps.to,
    stationIds: telescopes.map(({ id }) => id),
    candidates: subjects.map(({ candidate }) => candidate),
    setups,
    besides,
    ...table,
  }
}

/** A close view through the tube and eyepiece of the whole one (the candidate before it) is no second view. */
const isSameView = (whole: Setup | null | undefined, setup: Setup, aim: Aim): boolean =>
  aim === 'close' && whole?.tubeId === setup.tubeId && whole.eyepieceId === setup.eyepieceId

/** Name of an evening's chances: equal keys have equal tables. */
export const chanceKey = (sky: Pick<EveningSky, 'key'>, { site, settings, stations, opens, closes }: Night): string =>
  `${sky.key}/${digestOf(JSON.stringify([site.skyMag, site.glow, settings, stations, opens, closes]))}`

interface Asked {
  readonly subject: Subject
  readonly candidate: Candidate
}

function subjectsOf(sky: EveningSky, objects: readonly ShowObject[]): readonly Asked[] {
  return objects.flatMap((object, targetIndex) => {
    const subject = subjectOf(object, sky)
    if (subject === null) return []
    const aims: readonly Aim[] = subject.kind === 'moon' ? ['whole', 'close'] : ['whole']
    return aims.map((aim) => ({ subject, candidate: { targetKey: object.key, targetIndex, aim } }))
  })
}

/** The steps of the public hours and of an hour either side, all of which the sky of that night holds. */
function stepsOf(sky: EveningSky, night: Night): Steps {
  const { opensAt, closesAt } = nightHours(night)
  const [opens, closes] = [Math.ceil(stepAt(sky, opensAt)), Math.floor(stepAt(sky, closesAt))]
  const margin = MARGIN_MIN / sky.stepMin
  const steps = { from: opens - margin, to: closes + margin, opens, closes }
  if (steps.from < 0 || steps.to >= sky.count) throw new RangeError('This sky does not hold the hours of this night.')
  return steps
}

function fillRow(
  moments: readonly Moment[],
  offset: number,
  table: { readonly chance: Float32Array; readonly view: Float32Array },
  ask: Chosen['ask'],
): void {
  for (const { step, geometry, backdrop } of moments) {
    const answer = ask(geometry, backdrop)
    table.chance[offset + step] = answer.chance
    table.view[offset + step] = answer.view
  }
}

/** Chance and view at a step, 0 to 1, by station and candidate number. Throws beyond the steps that were reckoned. */
export function seenAtStep(table: EveningChance, station: number, candidate: number, step: number) {
  if (step < table.from || step > table.to)
    throw new RangeError(`Nothing is reckoned for step ${step} of this evening.`)
  const at = (station * table.candidates.length + candidate) * table.count + step
  return { chance: table.chance[at] ?? 0, view: table.view[at] ?? 0 }
}
