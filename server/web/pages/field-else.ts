import { type GoodNow, isOpen, type NowLine } from '../../tours/good-now.ts'
import type { Station } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { checkRow } from './check.ts'
import { actMaker, type FieldAct, stationHref } from './field-acts.ts'
import type { FieldGround } from './field-ground.ts'
import { causeText, remarkText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'

/** One thing that a station could show now, or why it cannot. */
interface ElseThing {
  readonly name: string
  readonly where: string
  readonly note: string | null
  readonly act: FieldAct | null
}

/** What a telescope could show in place of what is on. */
export interface ElsePart {
  readonly summary: string
  readonly isOpen: boolean
  /** Six good things, where nothing was looked up. */
  readonly things: readonly ElseThing[]
  /** Why nothing is listed, or that it is still being worked out; null when something is. */
  readonly note: string | null
  readonly again: { readonly href: string; readonly text: string } | null
  readonly action: string
  readonly query: string
  readonly queryLabel: string
  readonly searchText: string
  /** What answers to what was looked up. */
  readonly found: readonly ElseThing[]
}

interface ElseSubject extends FieldGround {
  /** Null while it is worked out. */
  readonly good: GoodNow | null
  readonly query: string
}

/** Six good things now, and a field to ask for any other; null for a station that is no telescope. */
export function elsePart(viewer: Viewer, subject: ElseSubject, station: Station): ElsePart | null {
  const { words } = viewer
  const { good, query, night } = subject
  if (station.telescope === null) return null
  const href = stationHref(night, station.id)
  const again = `${href}${query === '' ? '' : `?q=${encodeURIComponent(query)}`}`
  const isAsked = query !== ''
  return {
    summary: words.say('field.else'),
    isOpen: isAsked,
    things: isAsked ? [] : (good?.lines ?? []).map((line) => thingOf(viewer, subject, station, line)),
    note: noteOf(words, good, query),
    again: good === null ? { href: again, text: words.say('field.else-again') } : null,
    action: `${href}#else`,
    query,
    queryLabel: words.say('field.else-query'),
    searchText: words.say('page.objects-search'),
    found: (good?.asked ?? []).map((line) => thingOf(viewer, subject, station, line)),
  }
}

function noteOf(words: Words, good: GoodNow | null, query: string): string | null {
  if (good === null) return words.say('field.else-later')
  if (query === '') return good.note && remarkText(words, good.note)
  return good.asked.length === 0 ? words.say('page.objects-none', { query }) : null
}

function thingOf(viewer: Viewer, subject: ElseSubject, station: Station, line: NowLine): ElseThing {
  const { words, mayAct } = viewer
  const { night, names } = subject
  const { targetKey, aim, but } = line
  const name = targetName(words, names, targetKey, aim)
  const canShow = isOpen(line) && but?.code !== 'now.barred'
  const make = actMaker(subject, station.id)
  return {
    name,
    where: canShow ? whereText(words, checkRow(viewer, night, line, names), line) : notNowText(words, subject, line),
    note: but && remarkText(words, but),
    act: canShow && mayAct ? make(words.say('field.act-else', { name }), 'showing', { targetKey, aim }) : null,
  }
}

/** `south-west, 3½ fists up, until 19:40: oak. 25 minutes left.` */
function whereText(words: Words, { direction, when }: ReturnType<typeof checkRow>, { minutesLeft }: NowLine): string {
  const where = words.say('field.where', { direction, when })
  return minutesLeft === null ? where : `${where} ${words.say('check.minutes', { count: Math.round(minutesLeft) })}`
}

function notNowText(words: Words, { night }: ElseSubject, line: NowLine): string {
  const { altitudeDeg, cause, fromAt } = line
  const why = altitudeDeg <= 0 || cause === null ? words.say('page.object-not-up') : causeText(words, cause)
  if (fromAt === null) return words.say('now.gone', { why })
  return words.say('now.coming', { why, time: words.time(fromAt, night.site.zone) })
}
