import type { GoNight } from '../../desk/go.ts'
import { nightHours } from '../../tours/hours.ts'
import type { StationLine } from '../../tours/line-now.ts'
import { languageName } from '../../tours/own-words.ts'
import type { Words } from '../../words/words.ts'
import type { LookLink } from './field.ts'
import { publishedSentence } from './go-text.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'
import { plainName, type TonightGround, type TonightStation, tonightStation, waitText } from './tonight-stations.ts'

export interface TonightPage {
  readonly sheet: Sheet
  readonly nightId: string
  readonly tourVersion: number
  /** Of the marks that the page was made from. */
  readonly version: string
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  /** Whether the night takes place, as it is published; null while nothing is. */
  readonly notice: string | null
  /** Welcome, or that it is too early or too late; '' for a night that is off. */
  readonly lead: string
  readonly firstLabel: string
  /** A good way round, where to go first first; [] when nothing is open. The script leaves out what was seen. */
  readonly first: readonly FirstLink[]
  readonly seen: SeenWords
  readonly stationsLabel: string
  readonly stations: readonly TonightStation[]
  readonly secondLanguage: string
  readonly careLabel: string
  readonly care: readonly string[]
  readonly links: readonly LookLink[]
}

interface FirstLink extends LookLink {
  readonly targetKey: string
}

/** Sentences that the script fills: `#` is a number, `~` the names of things. */
interface SeenWords {
  readonly title: string
  readonly one: string
  readonly many: string
  readonly note: string
  readonly forget: string
}

interface TonightSubject extends TonightGround {
  readonly version: string
  readonly look: 'day' | 'lamp'
  /** The second language, and those in which anything is told. */
  readonly second: string | null
  readonly languages: readonly string[]
  readonly isSunUp: boolean
  /** What is published of whether the night takes place. */
  readonly go: Pick<GoNight, 'plan' | 'written'>
}

/** What visitors see on their own phones: what is where now, how long the lines are, and where to go first. */
export function tonightPage(viewer: Viewer, subject: TonightSubject): TonightPage {
  const { words } = viewer
  const { night, tour, line, version, second } = subject
  const time = words.time(line.at, night.site.zone)
  const isOff = night.state === 'off'
  return {
    sheet: tonightSheet(viewer, subject),
    nightId: night.id,
    tourVersion: tour?.version ?? 0,
    version,
    title: words.say(isOff ? 'go.night-off' : 'tonight.title'),
    nightTitle: night.title,
    time: words.say('tonight.as-of', { time }),
    notice: publishedSentence(words, night, subject.go),
    lead: isOff ? '' : leadText(words, subject),
    firstLabel: words.say('tonight.first'),
    first: isOff ? [] : firstOnes(words, subject),
    seen: seenWords(words),
    stationsLabel: words.say('tonight.stations'),
    stations: isOff ? [] : night.stations.map((station) => tonightStation(viewer, subject, station)),
    secondLanguage: second ?? words.settings.language,
    careLabel: words.say('tonight.care'),
    care: isOff ? [] : careTexts(words, subject.isSunUp),
    links: [...languageLinks(words, subject), lookLink(words, subject)],
  }
}

function tonightSheet(viewer: Viewer, { night, look }: TonightSubject): Sheet {
  const title = viewer.words.say('tonight.title-of', { title: night.title })
  const sheet = fieldSheet(viewer, title, look, ['tonight.js'])
  return { ...sheet, styles: [...sheet.styles, 'tonight.css'] }
}

function leadText(words: Words, { night, line }: TonightSubject): string {
  const { opensAt, closesAt } = nightHours(night)
  if (line.at < opensAt) return words.say('tonight.before', { time: words.time(opensAt, night.site.zone) })
  if (line.at >= closesAt) return words.say('tonight.over')
  return words.say('tonight.lead', { time: words.time(closesAt, night.site.zone) })
}

/** Where a newcomer still gets a look, what goes away soonest first and then the shortest line. */
function firstOnes(words: Words, subject: TonightSubject): FirstLink[] {
  const open = subject.line.stations.filter(({ queue }) => queue !== null && !queue.isTimeToClose)
  return open
    .toSorted((a, b) => soonest(a) - soonest(b) || shortest(a) - shortest(b))
    .flatMap((station) => firstOne(words, subject, station))
}

const soonest = ({ queue }: StationLine): number => queue?.leaveAt.getTime() ?? 0
const shortest = ({ queue }: StationLine): number => queue?.waitMin ?? 0

function firstOne(words: Words, { night, names }: TonightSubject, station: StationLine): FirstLink[] {
  const { stationId, showing, queue } = station
  if (showing === null || queue === null) return []
  const values = {
    station: stationName(night, names, stationId),
    name: plainName(words, names, showing),
    time: words.time(queue.leaveAt, night.site.zone),
  }
  const isToTheEnd = queue.leaveAt >= nightHours(night).closesAt
  const text = words.say(isToTheEnd ? 'tonight.first-open' : 'tonight.first-until', values)
  return [{ targetKey: showing.targetKey, href: `#station-${stationId}`, text: `${text} ${waitText(words, queue)}` }]
}

const seenWords = (words: Words): SeenWords => ({
  title: words.say('tonight.seen-title'),
  one: words.say('tonight.seen', { count: 1, number: '#', things: '~' }),
  many: words.say('tonight.seen', { count: 2, number: '#', things: '~' }),
  note: words.say('tonight.seen-note'),
  forget: words.say('tonight.seen-forget'),
})

/** The usual cautions; that of the Sun while it is up. */
const careTexts = (words: Words, isSunUp: boolean): string[] =>
  ([...(isSunUp ? (['sun'] as const) : []), 'lasers', 'white', 'legs', 'children'] as const).map((key) =>
    words.say(`tonight.care-${key}`),
  )

function languageLinks(words: Words, { second, languages, look }: TonightSubject): LookLink[] {
  const own = words.settings.language
  const others = languages.filter((code) => code !== own && code !== second)
  const more = others.map((code) => ({
    href: `?${new URLSearchParams({ look, second: code })}`,
    text: words.say('tonight.also-in', { language: languageName(code, own) ?? code }),
  }))
  return second === null ? more : [...more, { href: `?look=${look}`, text: words.say('tonight.one-language') }]
}

function lookLink(words: Words, { look, second }: TonightSubject): LookLink {
  const other = look === 'lamp' ? 'day' : 'lamp'
  const query = { look: other, ...(second === null ? {} : { second }) }
  return { href: `?${new URLSearchParams(query)}`, text: words.say(`field.look-${other}`) }
}
