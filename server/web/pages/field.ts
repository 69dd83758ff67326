import type { FieldState, StationNow } from '../../tours/field.ts'
import type { Night, Station } from '../../tours/night.ts'
import type { Aim } from '../../tours/target.ts'
import type { Tour } from '../../tours/tour.ts'
import { type FieldAct, type FieldActs, fieldActs } from './field-acts.ts'
import { holeHref } from './hole-href.ts'
import { type Names, targetName } from './say.ts'
import { type SendingWords, sendingWords } from './sending-words.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'
import { endText, setupText } from './stop-line.ts'

export interface LookLink {
  readonly href: string
  readonly text: string
}

export interface FieldRowPage {
  readonly sheet: Sheet
  readonly title: string
  readonly choose: string
  readonly stations: readonly {
    readonly href: string
    readonly name: string
    readonly operator: string
    readonly now: string
  }[]
  readonly lookLink: LookLink
  readonly holeLink: LookLink
  readonly backText: string
  readonly backHref: string
}

export interface FieldPage {
  readonly sheet: Sheet
  readonly nightId: string
  readonly stationId: string
  readonly station: string
  readonly nowLabel: string
  readonly now: string
  readonly until: string | null
  readonly setups: readonly string[]
  readonly nextLabel: string
  readonly next: string | null
  readonly acts: FieldActs | null
  readonly undo: FieldAct | null
  readonly readOnlyText: string
  readonly shownLabel: string
  readonly shown: readonly string[]
  readonly trouble: string | null
  readonly rowLabel: string
  readonly row: readonly { readonly station: string; readonly text: string }[]
  readonly lookLink: LookLink
  readonly holeLink: LookLink
  readonly backText: string
  readonly backHref: string
  readonly words: SendingWords
}

export interface FieldSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  readonly field: FieldState
  readonly names: Names
  readonly look: 'day' | 'lamp'
  /** Makes the key of one mark, new for every form. */
  readonly newKey: () => string
}

/** The row of a night, to choose one's station. */
export function fieldRowPage(viewer: Viewer, subject: FieldSubject): FieldRowPage {
  const { words } = viewer
  const { night, field } = subject
  return {
    sheet: fieldSheet(viewer, words.say('field.choose-of', { title: night.title }), subject.look, []),
    title: night.title,
    choose: words.say('field.choose'),
    stations: night.stations.map((station) => ({
      href: `/field/${night.id}/${station.id}`,
      name: station.name,
      operator: station.operator,
      now: showingText(viewer, subject, stateOf(field, station.id)),
    })),
    lookLink: lookLink(viewer, subject.look),
    holeLink: holeLink(viewer, subject),
    backText: words.say('field.to-board'),
    backHref: `/nights/${night.id}`,
  }
}

/** One station on its operator's phone: what to show, until when, what next, and the acts. */
export function fieldPage(viewer: Viewer, subject: FieldSubject, station: Station): FieldPage {
  const { words } = viewer
  const { night, field, names, look } = subject
  const state = stateOf(field, station.id)
  return {
    sheet: fieldSheet(viewer, station.name, look, ['field.js']),
    nightId: night.id,
    stationId: station.id,
    station: station.name,
    nowLabel: words.say('field.now'),
    now: nowName(viewer, subject, state),
    until: untilThen(viewer, subject, state),
    setups: setupsOf(viewer, subject, station, state),
    nextLabel: words.say('field.next'),
    next: nextText(viewer, subject, state),
    ...actsOf(viewer, subject, station, state),
    readOnlyText: words.say('field.read-only'),
    shownLabel: words.say('field.shown'),
    shown: (state?.shown ?? []).filter(({ toAt }) => toAt !== null).map(({ targetKey }) => names.nameOf(targetKey)),
    trouble: state?.trouble ? words.say(`page.trouble-${state.trouble}`) : null,
    rowLabel: words.say('field.row'),
    row: night.stations
      .filter(({ id }) => id !== station.id)
      .map(({ id, name }) => ({ station: name, text: showingText(viewer, subject, stateOf(field, id)) })),
    lookLink: lookLink(viewer, look),
    holeLink: holeLink(viewer, subject),
    backText: words.say('field.other-station'),
    backHref: `/field/${night.id}`,
    words: sendingWords(words),
  }
}

function actsOf(viewer: Viewer, subject: FieldSubject, station: Station, state: StationNow | undefined) {
  if (!viewer.mayAct || !state) return { acts: null, undo: null }
  const action = `/field/${subject.night.id}/${station.id}/marks`
  return fieldActs(viewer, { ...subject, action, state })
}

const stateOf = (field: FieldState, id: string): StationNow | undefined =>
  field.stations.find(({ stationId }) => stationId === id)

const nowName = ({ words }: Viewer, { names }: FieldSubject, state: StationNow | undefined): string =>
  state?.showing ? targetName(words, names, state.showing.targetKey, state.showing.aim) : words.say('field.nothing')

/** What a station shows and until when, in one line. */
function showingText(viewer: Viewer, subject: FieldSubject, state: StationNow | undefined): string {
  const until = untilOf(viewer, subject, state)
  const name = nowName(viewer, subject, state)
  return until === null ? name : viewer.words.say('field.showing-until', { name, until })
}

/** `until 19:15, then Albireo` where one follows on the other. */
function untilThen(viewer: Viewer, subject: FieldSubject, state: StationNow | undefined): string | null {
  const until = untilOf(viewer, subject, state)
  const next = state?.next
  if (until === null || !next || next.atAt.getTime() !== state.untilAt?.getTime()) return until
  return viewer.words.say('field.until-then', {
    until,
    name: targetName(viewer.words, subject.names, next.targetKey, next.aim),
  })
}

/** The planned end as paper says it; of something that is not planned, when the next stop begins. */
function untilOf({ words }: Viewer, subject: FieldSubject, state: StationNow | undefined): string | null {
  const { night } = subject
  if (!state?.showing || !state.untilAt) return null
  const stop = runningStop(subject, state.stationId, state.showing)
  if (stop) return endText(words, night, stop)
  return words.say('page.until-time', { time: words.time(state.untilAt, night.site.zone) })
}

const runningStop = ({ tour, field }: FieldSubject, stationId: string, showing: { targetKey: string; aim: Aim }) =>
  tour?.stops.find(
    (stop) =>
      stop.stationId === stationId &&
      stop.targetKey === showing.targetKey &&
      stop.aim === showing.aim &&
      stop.endsAt > field.at,
  )

function setupsOf({ words }: Viewer, subject: FieldSubject, station: Station, state: StationNow | undefined): string[] {
  const stop = state?.showing ? runningStop(subject, station.id, state.showing) : undefined
  return (stop?.setups ?? []).flatMap((setup) => setupText(words, station, setup))
}

function nextText({ words }: Viewer, { night, names }: FieldSubject, state: StationNow | undefined): string | null {
  if (!state?.next) return null
  const { targetKey, aim, atAt } = state.next
  const values = { time: words.time(atAt, night.site.zone), name: targetName(words, names, targetKey, aim) }
  return words.say('field.next-at', values)
}

const lookLink = ({ words }: Viewer, look: 'day' | 'lamp'): LookLink =>
  look === 'lamp'
    ? { href: '?look=day', text: words.say('field.look-day') }
    : { href: '?look=lamp', text: words.say('field.look-lamp') }

const holeLink = ({ words }: Viewer, { night, look }: FieldSubject): LookLink => ({
  href: `${holeHref(night)}?look=${look}`,
  text: words.say('hole.title'),
})
