import { nightHours } from './hours.ts'
import { closeLineAt, cycleAt, looksInStay, looksPerHour, waitMin } from './line.ts'
import type { Night } from './night.ts'
import { eyepiecesOf, turnSecOf } from './simulation-rows.ts'
import { middleOf, type Stop } from './tour.ts'
import { childShareOf, countOf, peopleAt } from './visitors.ts'

/** The line at one stop as arithmetic says, with the people of its middle spread evenly over the telescopes that show something then. */
export interface ReckonedStop {
  readonly stationId: string
  readonly targetKey: string
  readonly startsAt: Date
  readonly endsAt: Date
  /** One visitor's turn, through both tubes where two are looked through. */
  readonly turnSec: number
  readonly looksPerHour: number
  readonly stopMin: number
  readonly inLine: number
  /** Until the last of them has looked. */
  readonly waitMin: number
  /** When to close the line so that the last of them still looks; the start where there are too many. */
  readonly closeAt: Date
}

export interface ReckonedLine {
  readonly stops: readonly ReckonedStop[]
  /** Looks that one visitor gets in the usual stay in the fullest half hour; null on an empty field. */
  readonly looksInStay: number | null
}

/** What the arithmetic of the line says of a programme. */
export function reckonedLine(night: Night, stops: readonly Stop[]): ReckonedLine {
  const known = stops.filter(({ stationId }) =>
    night.stations.some(({ id, telescope }) => id === stationId && telescope),
  )
  return { stops: known.flatMap((stop) => reckoned(night, known, stop)), looksInStay: leastLooks(night, known) }
}

function reckoned(night: Night, stops: readonly Stop[], stop: Stop): ReckonedStop[] {
  const telescope = night.stations.find(({ id }) => id === stop.stationId)?.telescope
  if (!telescope) return []
  const { stationId, targetKey, startsAt, endsAt } = stop
  const middleAt = middleOf(stop)
  const people = peopleAt(night, middleAt)
  const turnSec = turnSecOf(night, telescope, stop.setups, childShareOf(people))
  const inLine = Math.round(countOf(people) / Math.max(1, showingAt(stops, middleAt)))
  const closeAt = closeLineAt(endsAt, inLine, turnSec)
  return [
    {
      stationId,
      targetKey,
      startsAt,
      endsAt,
      turnSec,
      looksPerHour: looksPerHour(turnSec / eyepiecesOf(stop.setups)),
      stopMin: (endsAt.getTime() - startsAt.getTime()) / 60_000,
      inLine,
      waitMin: waitMin(inLine, turnSec),
      closeAt: new Date(Math.max(closeAt.getTime(), startsAt.getTime())),
    },
  ]
}

const showingAt = (stops: readonly Stop[], at: Date): number =>
  stops.filter(({ startsAt, endsAt }) => startsAt <= at && at < endsAt).length

const STEP_MS = 1_800_000

/** In the half hour in which it is least, at telescopes that follow the sky. */
function leastLooks(night: Night, stops: readonly Stop[]): number | null {
  const { opensAt, closesAt } = nightHours(night)
  const { cycleSec, stayMin } = night.settings
  let least = Number.POSITIVE_INFINITY
  for (let ms = opensAt.getTime(); ms < closesAt.getTime(); ms += STEP_MS) {
    const people = peopleAt(night, new Date(ms))
    const showing = showingAt(stops, new Date(ms))
    const oneSec = cycleAt(cycleSec, childShareOf(people), 'altaz-driven', 0)
    if (showing > 0) least = Math.min(least, looksInStay(stayMin, countOf(people), showing, oneSec))
  }
  return Number.isFinite(least) ? least : null
}
