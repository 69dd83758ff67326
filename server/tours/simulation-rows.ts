import type { EveningSky } from './evening.ts'
import { nightHours } from './hours.ts'
import { cycleAt, looksPerHour } from './line.ts'
import { changeEyepieceMin, movingMin } from './moving.ts'
import type { Night } from './night.ts'
import { schoolClassOf } from './school-class.ts'
import type { LineStation, LineStop } from './simulation-lines.ts'
import { secondsFrom } from './simulation-visitors.ts'
import { apartDeg, targetAt } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Stop } from './tour.ts'

interface RowsInput {
  readonly night: Night
  readonly stops: readonly Stop[]
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
}

/** Seconds that one visitor takes at a stop, through one eyepiece after the other, where so many of the people are children. */
export function turnSecOf(
  { settings }: Night,
  telescope: Telescope,
  setups: Stop['setups'],
  childShare: number,
): number {
  const oneSec = cycleAt(settings.cycleSec, childShare, telescope.mount, setups[0]?.powerX ?? 0)
  return (3600 / looksPerHour(oneSec)) * eyepiecesOf(setups)
}

export const eyepiecesOf = (setups: Stop['setups']): number => Math.max(1, setups.length)

/** The telescopes of the row with what they show, less the minutes in which they are moved, and the time that a class has. */
export function rowsOf(input: RowsInput): readonly LineStation[] {
  return input.night.stations.flatMap(({ id, telescope }) => {
    if (telescope === null) return []
    const stops = input.stops.filter(({ stationId }) => stationId === id)
    const inTime = stops.toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
    return [{ stationId: id, stops: inTime.flatMap((stop, i) => shownOf(input, telescope, stop, inTime[i - 1])) }]
  })
}

function shownOf(input: RowsInput, telescope: Telescope, stop: Stop, before: Stop | undefined): readonly LineStop[] {
  const { opensAt } = nightHours(input.night)
  const sec = (at: Date) => secondsFrom(opensAt, at)
  const movedSec = before ? sec(before.endsAt) + movedMin(input, telescope, before, stop) * 60 : 0
  const shown = {
    targetKey: stop.targetKey,
    fromSec: Math.max(sec(stop.startsAt), movedSec),
    untilSec: sec(stop.endsAt),
    adultSec: turnSecOf(input.night, telescope, stop.setups, 0),
    childSec: turnSecOf(input.night, telescope, stop.setups, 1),
    eyepieces: eyepiecesOf(stop.setups),
  }
  return withoutClass(input.night, shown).filter(({ fromSec, untilSec }) => fromSec < untilSec)
}

function movedMin({ sky, objects }: RowsInput, { mount }: Telescope, from: Stop, to: Stop): number {
  if (from.targetKey === to.targetKey) return changeEyepieceMin()
  const [here, there] = [from, to].map(({ targetKey }) => sky.targetKeys.indexOf(targetKey))
  const kind = objects.find(({ key }) => key === to.targetKey)?.kind
  if (here === undefined || there === undefined || here < 0 || there < 0 || kind === undefined)
    return movingMin(mount, 'star', 0)
  return movingMin(mount, kind, apartDeg(targetAt(sky, here, to.startsAt), targetAt(sky, there, to.startsAt)))
}

/** A class has the row to itself, so that the public looks before and after it. */
function withoutClass(night: Night, shown: LineStop): readonly LineStop[] {
  const visiting = schoolClassOf(night)
  if (visiting === null) return [shown]
  const { opensAt } = nightHours(night)
  const [fromSec, untilSec] = [secondsFrom(opensAt, visiting.startsAt), secondsFrom(opensAt, visiting.endsAt)]
  return [
    { ...shown, untilSec: Math.min(shown.untilSec, fromSec) },
    { ...shown, fromSec: Math.max(shown.fromSec, untilSec) },
  ]
}
