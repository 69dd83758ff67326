import type { GoNight } from '../../desk/go.ts'
import type { GoReading, Judged, ReadingKind } from '../../tours/go-judge.ts'
import type { GoLimits } from '../../tours/go-limits.ts'
import type { GoDecision, GoPlan } from '../../tours/go-plan.ts'
import { calendarDate, instantOf, nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ThinCloud } from '../../tours/thin-cloud.ts'
import type { Words } from '../../words/words.ts'
import type { Names } from './say.ts'

/** The sentence to publish that follows from what was decided; null while nothing is. */
export function madeSentence(words: Words, night: Night, plan: GoPlan): string | null {
  const { state, title, date, site } = night
  if (state === 'planned' || state === 'closed') return null
  const { opensAt, closesAt } = nightHours(night)
  const hours = { from: words.time(opensAt, site.zone), to: words.time(closesAt, site.zone) }
  const said = words.say(`go.say-${state}`, { title, date: words.date(date), place: site.name, ...hours })
  const more = moreOf(words, night, plan)
  return more === null ? said : `${said} ${more}`
}

/** What is published beyond that the night takes place or does not. */
function moreOf(words: Words, night: Night, plan: GoPlan): string | null {
  if (night.state === 'doubtful') return nextWord(words, night, plan)
  return night.state === 'off' ? backUp(words, plan) : null
}

function nextWord(words: Words, night: Night, { nextWordAt, nextWordWhere }: GoPlan): string | null {
  const at = nextWordAt === null ? null : words.time(instantOf(night, nextWordAt), night.site.zone)
  if (at === null) return nextWordWhere === '' ? null : words.say('go.next-where', { where: nextWordWhere })
  if (nextWordWhere === '') return words.say('go.next-at', { time: at })
  return words.say('go.next-at-where', { time: at, where: nextWordWhere })
}

const backUp = (words: Words, { backUpDate }: GoPlan): string | null =>
  backUpDate === null ? null : words.say('go.back-up', { date: words.date(backUpDate) })

/** What is published: the host's own sentence while it holds, else the one that is made; null while nothing is decided. */
export const publishedSentence = (
  words: Words,
  night: Night,
  { plan, written }: Pick<GoNight, 'plan' | 'written'>,
): string | null => {
  const made = madeSentence(words, night, plan)
  return made !== null && written?.holds ? written.text : made
}

/** The same beside the night's title, date, place and hours, which it need not say again; null where the state says all. */
export const shortSentence = (
  words: Words,
  night: Night,
  { plan, written }: Pick<GoNight, 'plan' | 'written'>,
): string | null =>
  written?.holds && written.text !== madeSentence(words, night, plan) ? written.text : moreOf(words, night, plan)

const MINUTE_MS = 60_000
const HOUR_MIN = 60
const LONG_MIN = 48 * HOUR_MIN

/** `2 h 10 min`, `45 min` or, beyond two days, `3 days`. */
export function lastsText(words: Words, ms: number): string {
  const minutes = Math.floor(ms / MINUTE_MS)
  if (minutes === 0) return words.say('go.moment')
  if (minutes >= LONG_MIN) return words.say('go.days', { count: Math.floor(minutes / (24 * HOUR_MIN)) })
  const values = { hours: Math.floor(minutes / HOUR_MIN), minutes: minutes % HOUR_MIN }
  if (values.hours === 0) return words.say('go.minutes', values)
  return words.say(values.minutes === 0 ? 'go.hours' : 'go.hours-minutes', values)
}

/** An instant as sentences have it: its time and its date at the site. */
const spoken = (words: Words, { zone }: Night['site'], at: Date) => ({
  time: words.time(at, zone),
  date: words.date(calendarDate(at, zone)),
})

/** When it is to be decided and how long that is, and whether that is over. */
function decideWhen(words: Words, { site }: Night, { decisionAt }: GoNight, now: Date) {
  const ms = decisionAt.getTime() - now.getTime()
  return { isOver: ms <= 0, values: { ...spoken(words, site, decisionAt), span: lastsText(words, Math.abs(ms)) } }
}

/** The decision: until when it is to be made and how long that is, or that it is overdue, or that it was made. */
export function decisionText(words: Words, night: Night, go: GoNight, now: Date): string {
  const [last] = go.decisions
  if (last) return words.say('go.was-decided', spoken(words, night.site, last.decidedAt))
  const { isOver, values } = decideWhen(words, night, go, now)
  return words.say(isOver ? 'go.decide-now' : 'go.decide-by', values)
}

/** Until when it is to be decided, beside the night's date; null once that is over. */
export function deadlineText(words: Words, night: Night, go: GoNight, now: Date): string | null {
  const { isOver, values } = decideWhen(words, night, go, now)
  if (isOver) return null
  const isThatDay = calendarDate(go.decisionAt, night.site.zone) === night.date
  return words.say(isThatDay ? 'go.decide-by-time' : 'go.decide-by', values)
}

/** A value with its unit, or yes and no. */
export function valueText(words: Words, { kind, value }: Pick<GoReading, 'kind' | 'value'>): string {
  if (kind === 'cloud') return words.say('go.percent', { value: words.number(value) })
  if (kind === 'wind' || kind === 'gust') return words.speed(value)
  if (kind === 'temperature') return words.temperature(value)
  return kind === 'air' ? words.number(value) : words.say(value > 0 ? 'go.yes' : 'go.no')
}

export const kindText = (words: Words, kind: ReadingKind): string => words.say(`go.kind-${kind}`)

/** How a value stands to the limit: `fine`, `doubtful`, `over your limit`; for cold, under it. */
export function standingText(words: Words, { kind, known }: Judged): string {
  if (known === null) return words.say('go.not-known')
  return words.say(kind === 'temperature' && known.standing === 'over' ? 'go.is-under' : `go.is-${known.standing}`)
}

/** The host's limit for a kind, in words. */
export function limitText(words: Words, kind: ReadingKind, limits: GoLimits, cloud: GoNight['cloudLimit']): string {
  if (kind === 'thunder') return words.say('go.limit-thunder')
  if (kind === 'rain') return words.say(`go.limit-rain-${limits.rain}`)
  const { doubtful, off } = limits[kind === 'cloud' ? cloud : kind]
  const values = { doubtful: valueText(words, { kind, value: doubtful }), off: valueText(words, { kind, value: off }) }
  return words.say(kind === 'temperature' ? 'go.limit-cold' : 'go.limit', values)
}

const namesOf = (words: Words, kinds: readonly ReadingKind[]): string =>
  words.list(kinds.map((kind) => words.say(`go.of-${kind}`)))

/** A choice: weather of so long ago says little of the evening. */
const OLD_MS = 6 * 3_600_000

/** What the values speak for, what is not known, and what was entered too long ago. */
export function proposalTexts(
  words: Words,
  { proposal, judged }: Pick<GoNight, 'proposal' | 'judged'>,
  now: Date,
): string[] {
  const { state, because, missing } = proposal
  const old = judged.flatMap(({ kind, known }) =>
    known !== null && now.getTime() - known.reading.enteredAt.getTime() > OLD_MS ? [kind] : [],
  )
  const said = words.say(`go.proposal-${state}`, { what: namesOf(words, because) })
  const lacking = missing.length > 0 && state !== 'unknown'
  return [
    said,
    ...(lacking ? [words.say('go.missing', { what: namesOf(words, missing) })] : []),
    ...(old.length > 0 ? [words.say('go.old', { what: namesOf(words, old) })] : []),
  ]
}

/** One decision with what had been proposed and why. */
export function pastDecision(words: Words, { site }: Night, decision: GoDecision): string {
  const { state, proposed, why, decidedAt, decidedBy, decidedName } = decision
  const values = {
    ...spoken(words, site, decidedAt),
    state: words.say(`go.state-${state}`),
    who: words.say(`go.by-${decidedBy}`, { name: decidedName }),
    proposed: words.say(`go.proposed-${proposed}`),
  }
  return [words.say('go.decided', values), ...(why === '' ? [] : [words.say('go.why-was', { why })])].join(' ')
}

/** A telescope that has something for less of the public hours is not worth its operator's evening (our choice). */
const KEPT_SHARE = 0.5

/** Which telescopes are worth their people through thin cloud, in one sentence with the reason. */
export function keepText(words: Words, night: Night, names: Names, { stops }: ThinCloud): string {
  const telescopes = night.stations.filter(({ telescope }) => telescope !== null)
  const { opensAt, closesAt } = nightHours(night)
  const leastMs = KEPT_SHARE * (closesAt.getTime() - opensAt.getTime())
  const shownMs = (id: string): number =>
    stops.reduce((ms, { stationId, startsAt, endsAt }) => ms + (stationId === id ? +endsAt - +startsAt : 0), 0)
  const kept = telescopes.filter(({ id }) => shownMs(id) >= leastMs)
  if (kept.length === 0) return words.say('go.keep-none')
  const shown = stops.filter(({ stationId }) => kept.some(({ id }) => id === stationId))
  const things = words.list([...new Set(shown.map(({ targetKey }) => names.nameOf(targetKey)))])
  if (kept.length === telescopes.length) return words.say('go.keep-all', { things })
  const others = telescopes.filter((station) => !kept.includes(station))
  const listed = (row: typeof telescopes) => words.list(row.map(({ name }) => name))
  return words.say('go.keep', { stations: listed(kept), things, others: listed(others) })
}
