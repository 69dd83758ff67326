import { clamp } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { CheckLine } from './check.ts'
import type { EveningSky } from './evening.ts'
import { type EveningChance, seenAtStep } from './evening-chance.ts'
import { eyepieceHeight } from './eyepiece-height.ts'
import { LEAST_CHANCE } from './grid-cells.ts'
import { nightHours } from './hours.ts'
import { waitMin } from './line.ts'
import type { Mark } from './mark.ts'
import { newsOf } from './news.ts'
import type { Night, Station } from './night.ts'
import { comesAt, leaveBy, type WhyNot, whyNotOf } from './offered.ts'
import { pointingOf } from './pointing.ts'
import { stepAt, targetAt } from './sky-at.ts'
import { skyPartOf } from './sky-part.ts'
import type { Aim } from './target.ts'
import type { Telescope, Tube } from './telescope.ts'
import type { Cause, Setup } from './tour.ts'
import { countOf, peopleAt } from './visitors.ts'

/** One target at one station, as the check asks about it. */
export interface Asked {
  readonly station: Station
  readonly telescope: Telescope
  readonly targetKey: string
  readonly targetIndex: number
  readonly aim: Aim
  readonly setups: readonly Setup[]
  readonly isSpare: boolean
}

/** An evening with its chances, as the check asks about it. */
export interface LineInput {
  readonly night: Night
  readonly sky: EveningSky
  readonly chance: EveningChance
  /** What the field has told of clouds and of stations that left; without it nothing. */
  readonly marks?: readonly Mark[]
}

const HALF_HOUR_MIN = 30

/** How one target stands at one station at an instant. */
export function lineOf(input: LineInput, asked: Asked, at: Date): CheckLine {
  const place = targetAt(input.sky, asked.targetIndex, at)
  const { station, targetKey, aim, isSpare } = asked
  return {
    targetKey,
    aim,
    stationId: station.id,
    isSpare,
    ...(toldOf(input, asked, place, at) ?? standingOf(input, asked, at)),
    ...place,
    ...pointingOf(place),
    eyepieceHeightCm: heightCmOf(input.chance, asked, place.altitudeDeg),
  }
}

type Standing = Pick<CheckLine, 'group' | 'untilAt' | 'fromAt' | 'cause' | 'minutesLeft'>

/** How it stands by what the field has told: gone behind clouds, or until they were said to go; null when nothing was told of it. */
function toldOf({ night, marks = [] }: LineInput, { station }: Asked, place: Horizontal, at: Date): Standing | null {
  const { shut, shutUntilAt, out } = newsOf(night, marks, at)
  const isOut = out.includes(station.id)
  if (!isOut && !shut.includes(skyPartOf(place))) return null
  const fromAt = isOut ? null : shutUntilAt
  const cause = { code: isOut ? 'out' : 'cloud' } as const
  return { group: fromAt === null ? 'gone' : 'coming', untilAt: null, fromAt, cause, minutesLeft: null }
}

function standingOf(input: LineInput, asked: Asked, at: Date): Standing {
  const { night, sky } = input
  const { closesAt } = nightHours(night)
  const whyNot = whyNotSeen(input, asked)
  const cause = whyNot(stepAt(sky, at))
  if (cause !== null) {
    const comes = comesAt(sky, whyNot, at, closesAt)
    const fromAt = comes?.at ?? null
    return {
      group: fromAt === null ? 'gone' : 'coming',
      untilAt: null,
      fromAt,
      cause: comes?.cause ?? cause,
      minutesLeft: null,
    }
  }
  const leave = leaveBy(sky, whyNot, at, closesAt)
  if (leave === null) return { group: 'good', untilAt: null, fromAt: null, cause: null, minutesLeft: null }
  const minutesLeft = Math.max(0, Math.floor((leave.at.getTime() - at.getTime()) / 60_000))
  const isGoing = minutesLeft <= Math.max(HALF_HOUR_MIN, lineMin(night, at))
  return { group: isGoing ? 'going' : 'good', untilAt: leave.at, fromAt: null, cause: leave.cause, minutesLeft }
}

/** The gate, and after it whether a newcomer sees it more often than not. */
function whyNotSeen({ night, sky, chance }: LineInput, asked: Asked): WhyNot {
  const atGate = whyNotOf({ sky, site: night.site, mount: asked.telescope }, asked.targetIndex)
  const [row, column] = placeIn(chance, asked)
  const withChance = (step: number): Cause | null => {
    const cause = atGate(step)
    if (cause !== null || row < 0 || column < 0) return cause
    return seenAtStep(chance, row, column, Math.round(step)).chance < LEAST_CHANCE ? { code: 'faint' } : null
  }
  return Object.assign(withChance, { watched: atGate.watched })
}

/** Row and column of a question in the table of chances; -1 where it has none. */
const placeIn = ({ stationIds, candidates }: EveningChance, { station, targetKey, aim }: Asked) =>
  [
    stationIds.indexOf(station.id),
    candidates.findIndex((candidate) => candidate.targetKey === targetKey && candidate.aim === aim),
  ] as const

/** Minutes until the last of a fair share of the people has looked. */
function lineMin(night: Night, at: Date): number {
  const telescopes = night.stations.filter(({ telescope }) => telescope !== null).length
  return waitMin(countOf(peopleAt(night, at)) / Math.max(1, telescopes), night.settings.cycleSec)
}

/** Where the legs should bring the eyepiece: to a child's eye, or to where adults bend a little and tall children still reach (common practice, no source). */
const WISHED_CM = { children: 105, everyone: 135 } as const

/** Height of the eyepiece in whole centimetres with the legs as well set as their range allows; null when the target is down. */
function heightCmOf(chance: EveningChance, asked: Asked, altitudeDeg: number): number | null {
  const { telescope, station } = asked
  const tube = tubeOf(chance, asked)
  if (tube === undefined || altitudeDeg < 0) return null
  const { lowCm, highCm } = eyepieceHeight(telescope, tube, altitudeDeg)
  return Math.round(clamp(station.isForChildren ? WISHED_CM.children : WISHED_CM.everyone, lowCm, highCm))
}

/** The tube that the programme asks for; on a telescope that took the place of another, the tube that shows it best there. */
function tubeOf(chance: EveningChance, asked: Asked): Tube | undefined {
  const { tubes } = asked.telescope
  const [row, column] = placeIn(chance, asked)
  const best = row < 0 || column < 0 ? null : chance.setups[row * chance.candidates.length + column]
  const planned = tubes.find(({ id }) => id === asked.setups[0]?.tubeId)
  return planned ?? tubes.find(({ id }) => id === best?.tubeId) ?? tubes[0]
}
