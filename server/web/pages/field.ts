import type { Check } from '../../tours/check.ts'
import type { GoodNow } from '../../tours/good-now.ts'
import type { Mark } from '../../tours/mark.ts'
import type { Station } from '../../tours/night.ts'
import { type AboutPart, aboutPart } from './field-about.ts'
import { type FieldAct, type FieldActs, fieldActs, stationHref } from './field-acts.ts'
import { type ElsePart, elsePart } from './field-else.ts'
import { cloudText, type FieldGround, nowText, stateOf } from './field-ground.ts'
import { type EveningPart, eveningPart, type SlipPart, slipPart } from './field-slip.ts'
import { fieldWays, lookLink, rowHref } from './field-ways.ts'
import { type SendingWords, sendingWords } from './sending-words.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export interface LookLink {
  readonly href: string
  readonly text: string
}

export interface FieldPage {
  readonly sheet: Sheet
  readonly nightId: string
  readonly stationId: string
  /** 0 while there is no programme. */
  readonly tourVersion: number
  readonly version: string
  readonly words: SendingWords
  readonly newPlan: LookLink
  /** What is told before anything else: clouds, and that the station has left the row. */
  readonly banners: readonly string[]
  readonly station: string
  readonly now: string
  readonly until: string | null
  readonly nextLabel: string
  readonly next: string
  readonly main: FieldAct | null
  readonly trouble: (FieldActs['trouble'] & { readonly summary: string; readonly told: string | null }) | null
  readonly readOnlyText: string | null
  readonly about: AboutPart | null
  readonly skip: Fold<FieldActs['skip']>
  readonly takeBack: (FieldAct & { readonly summary: string }) | null
  readonly seen: Fold<FieldActs['seen']>
  readonly other: ElsePart | null
  readonly slip: SlipPart | null
  readonly evening: EveningPart | null
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

type Fold<Group> = (NonNullable<Group> & { readonly summary: string }) | null

export interface FieldSubject extends FieldGround {
  /** What the station could show now; null while that is worked out. */
  readonly good: GoodNow | null
  /** The check of the half hour; null while that is worked out. */
  readonly checked: { readonly at: Date; readonly check: Check | null }
  /** The acts that nobody has taken back. */
  readonly standing: readonly Mark[]
  /** What was typed to be looked up. */
  readonly query: string
}

/** One station in its operator's hand: five things at once, all else one tap away. */
export function fieldPage(viewer: Viewer, subject: FieldSubject, station: Station): FieldPage {
  const { words } = viewer
  const { night, tour, version, look, good, checked } = subject
  const { name: now, until, next } = nowText(words, subject, station.id, good?.on)
  return {
    sheet: fieldSheet(viewer, station.name, look, ['field.js']),
    nightId: night.id,
    stationId: station.id,
    tourVersion: tour?.version ?? 0,
    version,
    words: sendingWords(words),
    newPlan: { href: '#evening', text: words.say('field.new-plan') },
    banners: bannersOf(viewer, subject, station),
    station: station.name,
    now,
    until,
    nextLabel: words.say('field.next'),
    next: next ?? words.say('field.next-none'),
    ...actsOf(viewer, subject, station),
    about: aboutPart(words, subject, station, good),
    other: elsePart(viewer, subject, station),
    slip: slipPart(viewer, subject, station, checked),
    evening: eveningPart(words, subject, station),
    lookLink: lookLink(words, look, stationHref(night, station.id)),
    ways: [{ href: rowHref(night), text: words.say('field.to-row') }, ...fieldWays(viewer, subject)],
  }
}

function bannersOf({ words }: Viewer, subject: FieldSubject, { id }: Station): string[] {
  const clouds = cloudText(words, subject)
  return [...(subject.news.out.includes(id) ? [words.say('field.out')] : []), ...(clouds === null ? [] : [clouds])]
}

type ActsPart = Pick<FieldPage, 'main' | 'trouble' | 'skip' | 'takeBack' | 'seen' | 'readOnlyText'>
const NO_ACTS = { main: null, trouble: null, skip: null, takeBack: null, seen: null }

function actsOf(viewer: Viewer, subject: FieldSubject, station: Station): ActsPart {
  const { words, mayAct } = viewer
  const state = stateOf(subject, station.id)
  if (!mayAct || !state) return { ...NO_ACTS, readOnlyText: mayAct ? null : words.say('field.read-only') }
  const { main, trouble, skip, seen, takeBack } = fieldActs(viewer, { ...subject, state })
  return {
    main,
    trouble: {
      ...trouble,
      summary: words.say('field.trouble'),
      told: state.trouble === null ? null : words.say(`page.trouble-${state.trouble}`),
    },
    skip: skip && { ...skip, summary: words.say('field.skip') },
    takeBack: takeBack && { ...takeBack, summary: words.say('field.take-back-fold') },
    seen: seen && { ...seen, summary: words.say('field.seen-fold') },
    readOnlyText: null,
  }
}
