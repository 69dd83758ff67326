import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { HostCall } from '../../tours/host-calls.ts'
import type { LineNow, PeopleNow } from '../../tours/line-now.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import type { LookLink } from './field.ts'
import { type Gate, gateOf, type WatchForm, watchForm } from './line-page-acts.ts'
import { type LineStation, lineStation } from './line-page-stations.ts'
import type { Names } from './say.ts'
import { type SendingWords, sendingWords } from './sending-words.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

export interface LineHelperPage {
  readonly sheet: Sheet
  readonly nightId: string
  readonly tourVersion: number
  /** Of the marks that the page was made from. */
  readonly version: string
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  readonly words: SendingWords
  readonly newPlan: LookLink
  /** Said to whoever may read only; null for whoever may act. */
  readonly readOnlyText: string | null
  /** The people as counted at the gate; the script counts on before the laptop answers. */
  readonly people: {
    readonly label: string
    readonly adults: number
    readonly children: number
    readonly adultsLabel: string
    readonly childrenLabel: string
    readonly note: string
  }
  readonly gate: Gate | null
  /** The calls to be made now, else the next one. */
  readonly firstCalls: readonly string[]
  readonly stationsLabel: string
  readonly stations: readonly LineStation[]
  readonly watch: WatchForm | null
  readonly callsLabel: string
  readonly calls: readonly CallText[]
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

interface CallText {
  readonly call: string
  readonly how: string
  readonly when: string
  readonly isNow: boolean
}

interface LineHelperSubject {
  readonly night: Night
  readonly line: LineNow
  readonly tourVersion: number
  readonly version: string
  /** What the stations that are no telescope show; [] while that is worked out. */
  readonly beside: readonly BesideHalf[]
  readonly names: Names
  readonly look: 'day' | 'lamp'
  /** Makes the key of one mark, new for every form. */
  readonly newKey: () => string
}

/** The line helper's phone: who waits where and for how long, which line to close, the gate, and the host's four calls. */
export function lineHelperPage(viewer: Viewer, subject: LineHelperSubject): LineHelperPage {
  const { words, mayAct } = viewer
  const { night, line, tourVersion, version } = subject
  const ground = { words, back: lineHref(night), newKey: subject.newKey }
  const timed = night.stations.filter(({ telescope }) => telescope !== null)
  return {
    sheet: lineSheet(viewer, subject),
    nightId: night.id,
    tourVersion,
    version,
    title: words.say('queue.title'),
    nightTitle: night.title,
    time: words.time(line.at, night.site.zone),
    words: sendingWords(words),
    newPlan: { href: `/field/${night.id}`, text: words.say('queue.new-plan') },
    readOnlyText: mayAct ? null : words.say('field.read-only'),
    people: peopleOf(words, night, line.people),
    gate: mayAct ? gateOf(ground, line.people) : null,
    firstCalls: firstCalls(words, subject),
    stationsLabel: words.say('queue.stations'),
    stations: line.stations.map((station) => lineStation(viewer, subject, station, ground)),
    watch: mayAct ? watchForm(ground, timed) : null,
    callsLabel: words.say('print.calls'),
    calls: line.calls.map((call) => callText(words, subject, call)),
    lookLink: lookLink(words, subject.look),
    ways: [
      { href: `/field/${night.id}`, text: words.say('page.night-link-field') },
      { href: `/nights/${night.id}/hole?look=${subject.look}`, text: words.say('hole.title') },
      { href: `/nights/${night.id}`, text: words.say('field.to-board') },
    ],
  }
}

/** The line helper's page of a night. */
const lineHref = ({ id }: Pick<Night, 'id'>): string => `/field/${id}/line`

function lineSheet(viewer: Viewer, { night, look }: LineHelperSubject): Sheet {
  const title = viewer.words.say('queue.title-of', { title: night.title })
  const sheet = fieldSheet(viewer, title, look, ['field.js', 'gate.js', 'timing.js'])
  return { ...sheet, styles: [...sheet.styles, 'line-page.css'] }
}

function peopleOf(words: Words, { site }: Night, people: PeopleNow): LineHelperPage['people'] {
  const { adults, children, isCounted, atGate, countedAt } = people
  const time = countedAt === null ? '' : words.time(countedAt, site.zone)
  const note = isCounted ? 'queue.counted' : countedAt === null ? 'queue.expected' : 'queue.count-old'
  return {
    label: words.say('queue.people'),
    ...atGate,
    adultsLabel: words.say('page.visitors-adults'),
    childrenLabel: words.say('page.visitors-children'),
    note: words.say(note, { time, count: adults + children }),
  }
}

/** The calls to be made now, or the next one, each in one line for the top of the page. */
function firstCalls(words: Words, subject: LineHelperSubject): string[] {
  const { calls } = subject.line
  const now = calls.filter(({ state }) => state === 'now')
  const first = now.length > 0 ? now : calls.filter(({ state }) => state === 'next')
  return first.map((call) => {
    const when = call.state === 'now' ? stationsText(words, subject, call) : whenText(words, subject, call)
    return words.say(`queue.call-${call.state}-of`, { call: words.say(`call.${call.call}`), when })
  })
}

const callText = (words: Words, subject: LineHelperSubject, call: HostCall): CallText => ({
  call: words.say(`call.${call.call}`),
  how: words.say(`call.${call.call}-when`),
  when: whenText(words, subject, call),
  isNow: call.state === 'now',
})

function whenText(words: Words, subject: LineHelperSubject, call: HostCall): string {
  const { at, state } = call
  if (state === 'past') return words.say('queue.call-past')
  const time = at === null ? words.say('queue.call-any') : words.time(at, subject.night.site.zone)
  const when = state === 'now' ? words.say('queue.call-now') : time
  return [when, stationsText(words, subject, call)].filter(Boolean).join(', ')
}

const stationsText = (words: Words, { night, names }: LineHelperSubject, { stationIds }: HostCall): string =>
  words.list(stationIds.map((id) => stationName(night, names, id)))

const lookLink = (words: Words, look: 'day' | 'lamp'): LookLink => {
  const other = look === 'lamp' ? 'day' : 'lamp'
  return { href: `?look=${other}`, text: words.say(`field.look-${other}`) }
}
