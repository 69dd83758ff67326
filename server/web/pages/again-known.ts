import type { AgainState } from '../../desk/again.ts'
import type { StationNow } from '../../tours/field.ts'
import type { News } from '../../tours/news.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { partText } from './hole.ts'
import { type Names, targetName } from './say.ts'
import { stationName } from './stop-line.ts'

/** What is known of the night that no programme could foresee, one line each; [] when nothing is. */
export function knownLines(words: Words, night: Night, { news, field }: AgainState, names: Names): string[] {
  const nameOf = (id: string) => stationName(night, names, id)
  const people = field.adultsIn + field.childrenIn
  return [
    ...cloudLines(words, night, news),
    ...(news.out.length > 0 ? [words.say('again.known-out', { stations: words.list(news.out.map(nameOf)) })] : []),
    ...[...news.cycleSec].map(([id, seconds]) =>
      words.say('again.known-timed', { station: nameOf(id), seconds: words.number(seconds) }),
    ),
    ...(people > 0 ? [words.say('again.known-people', { count: people, people: words.number(people) })] : []),
    ...(news.crowd === 1 ? [] : [words.say('again.known-crowd', { percent: words.number(100 * news.crowd) })]),
  ]
}

/** What clouds shut and until when, as a sentence; [] while they shut nothing. */
export function cloudLines(words: Words, night: Night, { shut, shutUntilAt }: News): string[] {
  if (shut.length === 0) return []
  const parts = words.list(shut.map((part) => partText(words, part)))
  if (!shutUntilAt) return [words.say('again.known-clouds', { parts })]
  return [words.say('again.known-clouds-until', { parts, time: words.time(shutUntilAt, night.site.zone) })]
}

/** Where the field is not as planned: what else is shown, and what is in the way. */
export function fieldLines(words: Words, night: Night, state: AgainState, names: Names): string[] {
  const inRow = state.field.stations.filter(({ stationId }) => !state.news.out.includes(stationId))
  return inRow.flatMap((station) => [
    ...shownLines(words, night, state, names, station),
    ...(station.trouble
      ? [
          words.say('page.attention-trouble', {
            station: stationName(night, names, station.stationId),
            what: words.say(`page.trouble-${station.trouble}`),
          }),
        ]
      : []),
  ])
}

function shownLines(
  words: Words,
  night: Night,
  { tour, at }: AgainState,
  names: Names,
  { stationId, showing }: StationNow,
): string[] {
  const planned = tour.stops.find((stop) => stop.stationId === stationId && stop.startsAt <= at && at < stop.endsAt)
  if (showing === null ? !planned : showing.isPlanned) return []
  const values = {
    station: stationName(night, names, stationId),
    name: showing ? targetName(words, names, showing.targetKey, showing.aim) : '',
    planned: planned ? targetName(words, names, planned.targetKey, planned.aim) : '',
  }
  if (!planned) return [words.say('again.shows-unplanned', values)]
  return [words.say(showing ? 'again.shows-else' : 'again.shows-nothing', values)]
}
