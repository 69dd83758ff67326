import type { BesideHalf } from '../../tours/beside-lines.ts'
import { aboutMin, type LineNow, type Queue, type StationLine } from '../../tours/line-now.ts'
import type { Night, Station } from '../../tours/night.ts'
import type { Aim, Story } from '../../tours/target.ts'
import type { Setup, Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { besideNow } from './beside.ts'
import { type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { comfortTexts } from './tonight-comfort.ts'

/** A thing that a visitor can tick as seen. */
interface SeenTick {
  readonly key: string
  readonly name: string
  readonly tick: string
  readonly ticked: string
}

/** One station in the words of somebody who has never been here. */
export interface TonightStation {
  readonly id: string
  readonly name: string
  readonly kind: string
  /** What it shows; null where there is nothing to see now. */
  readonly thing: string | null
  readonly nothing: string
  readonly story: readonly string[]
  readonly second: readonly string[]
  /** How long the line is, or why there is none. */
  readonly line: string | null
  readonly until: string | null
  readonly next: string | null
  readonly suits: readonly string[]
  readonly ticks: readonly SeenTick[]
}

export interface TonightGround {
  readonly night: Night
  readonly tour: Tour | undefined
  readonly line: LineNow
  readonly beside: readonly BesideHalf[]
  readonly names: Names
  /** How high a thing that is shown now stands; null where that is not known. */
  readonly altitudeOf: (targetKey: string) => number | null
  /** What is told of a thing in the second language; undefined without one. */
  readonly secondStory: (targetKey: string) => Story | undefined
}

/** What is at a station now, how long the line is, and what comes next. */
export function tonightStation({ words }: Viewer, ground: TonightGround, station: Station): TonightStation {
  const { night, line, names, beside } = ground
  const now = line.stations.find(({ stationId }) => stationId === station.id)
  const showing = now === undefined || now.isOut ? null : now.showing
  const keys = showing ? [showing.targetKey] : besideKeys(ground, station.id)
  // Of several things the story of one would read as that of all.
  const only = keys.length === 1 ? keys : []
  const setups = showing ? setupsOf(ground, station.id, showing.targetKey) : []
  const altitudeDeg = showing ? ground.altitudeOf(showing.targetKey) : null
  return {
    id: station.id,
    name: station.name,
    kind: words.say(`tonight.kind-${station.kind}`),
    thing: showing
      ? targetName(words, names, showing.targetKey, showing.aim)
      : besideNow(words, names, beside, station.id, line.at),
    nothing: words.say(now?.isOut ? 'tonight.gone' : 'tonight.nothing'),
    story: only.flatMap((key) => storyOf(words, names, key)),
    second: only.flatMap((key) => firstSentences(ground.secondStory(key)?.see ?? '')),
    line: now === undefined || now.isOut ? null : lineText(words, night, now),
    until: showing && now ? untilText(words, night, now) : null,
    next: now === undefined || now.isOut ? null : nextText(words, ground, now),
    suits: comfortTexts(words, station, { setups, altitudeDeg }),
    ticks: keys.map((key) => tickOf(words, key, names.nameOf(key))),
  }
}

const tickOf = (words: Words, key: string, name: string): SeenTick => ({
  key,
  name,
  tick: words.say('tonight.tick', { name }),
  ticked: words.say('tonight.ticked', { name }),
})

const setupsOf = ({ tour, line }: TonightGround, id: string, key: string): readonly Setup[] =>
  tour?.stops.find(({ stationId, targetKey, endsAt }) => stationId === id && targetKey === key && endsAt > line.at)
    ?.setups ?? []

/** What a station that is no telescope has to see in this half hour. */
const besideKeys = ({ beside, line }: TonightGround, id: string): readonly string[] =>
  beside
    .filter(({ stationId, fromAt, toAt }) => stationId === id && fromAt <= line.at && line.at < toAt)
    .flatMap(({ lines }) => lines.flatMap((it) => (it.what === 'sight' || it.what === 'picture' ? [it.targetKey] : [])))

/** Everybody knows what these are. */
const KNOWN_KINDS: readonly string[] = ['moon', 'planet']

/** A name that tells a visitor something, `M15 (a ball of many thousand stars)`; a close look follows one that was told. */
export function plainName(words: Words, names: Names, { targetKey, aim }: { targetKey: string; aim: Aim }): string {
  const name = targetName(words, names, targetKey, aim)
  const kind = names.show(targetKey)?.kind
  if (kind === undefined || aim === 'close' || KNOWN_KINDS.includes(kind)) return name
  return words.say('tonight.thing-kind', { name, kind: words.say(`tonight.what-${kind}`) })
}

/** The first words of its story; a plain sentence about its kind where none is told. */
function storyOf(words: Words, names: Names, key: string): readonly string[] {
  const told = firstSentences(names.story(key)?.see ?? '')
  const kind = names.show(key)?.kind
  return told.length > 0 || kind === undefined ? told : [words.say(`card.about-${kind}`)]
}

const SENTENCES = 2

const firstSentences = (text: string): readonly string[] =>
  text
    .split(/(?<=[.?!])\s+/)
    .filter((sentence) => sentence !== '')
    .slice(0, SENTENCES)

const LONG_MIN = 60

/** How long a line is in words that anybody understands. */
export function waitText(words: Words, { waitMin }: Queue): string {
  const minutes = aboutMin(waitMin)
  if (minutes === 0) return words.say('tonight.no-line')
  return words.say(minutes > LONG_MIN ? 'tonight.line-long' : 'tonight.line', { minutes })
}

function lineText(words: Words, { site }: Night, { queue, trouble, showing }: StationLine): string | null {
  if (trouble !== null && showing !== null) return words.say(`tonight.trouble-${trouble}`)
  if (queue === null) return null
  if (!queue.isTimeToClose) return waitText(words, queue)
  return words.say('tonight.line-closed', { time: words.time(queue.leaveAt, site.zone) })
}

const untilText = (words: Words, { site }: Night, { untilAt }: StationLine): string | null =>
  untilAt && words.say('tonight.until', { time: words.time(untilAt, site.zone) })

function nextText(words: Words, { night, names }: TonightGround, { next }: StationLine): string | null {
  if (next === null) return null
  const name = plainName(words, names, next)
  return words.say('tonight.next', { time: words.time(next.atAt, night.site.zone), name })
}
