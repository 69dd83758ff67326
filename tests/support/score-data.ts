import type { ScoreSubject } from '../../server/drawings/score.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { builtOn, eveningOf, FOR_TELESCOPES } from './evenings.ts'

const objects = FOR_TELESCOPES
const nameOf = ({ targetKey, aim }: Stop): string => {
  const name = objects.find(({ key }) => key === targetKey)?.name ?? targetKey
  return aim === 'close' ? `${name}, close up` : name
}
const causeOf: ScoreSubject['causeOf'] = ({ code, name }) => name || code
const A4_MM = 270

/** What stops look like hangs little on how many things there are to choose from. */
export const A_THIRD = objects.filter(({ body }, i) => body !== null || i % 3 === 0)

/** A night with the programme that a short search finds for it. */
export function scoredNight(night: Night, list = objects): ScoreSubject {
  const evening = eveningOf(night, list)
  const { stops } = builtOn(evening, 15_000)
  return { night, stops, evening: evening.sky.events, nameOf, causeOf, widthMm: A4_MM }
}

/** A night with nothing on its programme. */
export const emptyScore = (night: Night): ScoreSubject => ({
  night,
  stops: [],
  evening: eveningSky(night, []).events,
  nameOf,
  causeOf,
  widthMm: A4_MM,
})

/** The same night with so many stations, and so many stops spread evenly over them and over the evening. */
export function crowded(subject: ScoreSubject, stationCount: number, stopCount: number): ScoreSubject {
  const { stations: row } = subject.night
  const stations = Array.from({ length: stationCount }, (_, i) => {
    const like = row[i % row.length]
    if (!like) throw new Error('A night has stations')
    return { ...like, id: `row-${i}`, name: `${like.name} ${i + 1}` }
  })
  const night = { ...subject.night, stations }
  const { opensAt, closesAt } = nightHours(night)
  const each = Math.ceil(stopCount / stationCount)
  const stepMs = (closesAt.getTime() - opensAt.getTime()) / each
  const stops = Array.from({ length: stopCount }, (_, i): Stop => {
    const like = subject.stops[i % subject.stops.length]
    if (!like) throw new Error('A programme has stops')
    const startsAt = new Date(opensAt.getTime() + Math.floor(i / stationCount) * stepMs)
    return { ...like, stationId: `row-${i % stationCount}`, startsAt, endsAt: new Date(startsAt.getTime() + stepMs) }
  })
  return { ...subject, night, stops }
}

/** Sixty letters, as long as a host's own name may be. */
export const LONG_NAME = 'The great winding cluster of the wandering winter water-folk'
