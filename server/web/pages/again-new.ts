import type { AgainState } from '../../desk/again.ts'
import { countOfChanges, type FatedStop, firstChangeAt, type StationChanges } from '../../tours/changes.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { cloudLines } from './again-known.ts'
import { type Names, remarkText } from './say.ts'
import { mayLead, type Viewer } from './sheet.ts'
import { stationName, stopLine } from './stop-line.ts'

/** One stop of the old plan or of the new one. */
interface AgainLine {
  readonly when: string
  readonly name: string
  readonly href: string
  /** What becomes of it, in a word; null in the old plan for what goes on in the new one, where it is said. */
  readonly fate: string | null
  readonly isNews: boolean
  /** Of what is new: why it is there. */
  readonly reasons: readonly string[]
}

interface AgainStation {
  readonly name: string
  readonly before: readonly AgainLine[]
  readonly after: readonly AgainLine[]
}

interface AgainAct {
  readonly action: string
  readonly text: string
  readonly fields: readonly { readonly name: string; readonly value: string }[]
}

/** A programme that waits for the host, beside the one that the row goes by. */
export interface AgainNew {
  readonly made: string
  readonly summary: readonly string[]
  readonly notices: readonly string[]
  readonly noticesLabel: string
  readonly beforeLabel: string
  readonly afterLabel: string
  readonly nothing: string
  /** Stations at which something changes, then those at which nothing does. */
  readonly changed: readonly AgainStation[]
  readonly same: readonly AgainStation[]
  readonly sameLabel: string
  readonly accept: AgainAct | null
  readonly drop: AgainAct | null
}

interface AgainNewSubject {
  readonly night: Night
  readonly state: AgainState
  readonly names: Names
  readonly newKey: () => string
}

/** Old beside new from now on, station by station. */
export function againNew(viewer: Viewer, subject: AgainNewSubject, waiting: Tour): AgainNew {
  const { words } = viewer
  const { night, state, newKey } = subject
  const isSame = ({ before, after }: StationChanges) => [...before, ...after].every(({ fate }) => fate === 'stays')
  const inOrder = [...state.changes].sort((a, b) => placeIn(night, a) - placeIn(night, b))
  const stations = (changes: readonly StationChanges[]) => changes.map((it) => stationOf(viewer, subject, it))
  const act = (action: string, text: string): AgainAct | null =>
    mayLead(viewer)
      ? {
          action: `/nights/${night.id}/${action}`,
          text: words.say(text),
          fields: [
            { name: 'key', value: newKey() },
            { name: 'tourId', value: waiting.id },
          ],
        }
      : null
  return {
    made: words.say('page.made', { version: waiting.version, time: words.time(waiting.madeAt, night.site.zone) }),
    summary: summaryOf(viewer, subject),
    notices: waiting.notices.map((notice) => remarkText(words, notice)),
    noticesLabel: words.say('page.notices'),
    beforeLabel: words.say('again.before'),
    afterLabel: words.say('again.after'),
    nothing: words.say('again.nothing'),
    changed: stations(inOrder.filter((it) => !isSame(it))),
    same: stations(inOrder.filter(isSame)),
    sameLabel: words.say('again.same'),
    accept: act('programme/accept', 'again.accept'),
    drop: act('again/drop', 'again.drop'),
  }
}

/** Stations that have left the row come last. */
function placeIn({ stations }: Night, { stationId }: StationChanges): number {
  const place = stations.findIndex(({ id }) => id === stationId)
  return place < 0 ? stations.length : place
}

/** How much changes, from when on, and what clouds have to do with it. */
function summaryOf({ words }: Viewer, { night, state }: AgainNewSubject): string[] {
  const [count, firstAt] = [countOfChanges(state.changes), firstChangeAt(state.changes)]
  const clouds = cloudLines(words, night, state.news)
  if (firstAt === null) return [words.say('again.no-change'), ...clouds]
  const time = words.time(firstAt, night.site.zone)
  return [
    words.say('again.changes', { count }),
    firstAt <= state.fromAt ? words.say('again.at-once') : words.say('again.not-before', { time }),
    ...clouds,
  ]
}

function stationOf(viewer: Viewer, subject: AgainNewSubject, changes: StationChanges): AgainStation {
  return {
    name: stationName(subject.night, subject.names, changes.stationId),
    before: changes.before.map((it) => ({ ...lineOf(viewer, subject, it), ...(it.fate !== 'gone' && UNSAID) })),
    after: changes.after.map((it) => lineOf(viewer, subject, it)),
  }
}

const UNSAID = { fate: null, isNews: false }

function lineOf(
  viewer: Viewer,
  { night, state, names }: AgainNewSubject,
  { stop, fromAt, fate }: FatedStop,
): AgainLine {
  const { words } = viewer
  const { zone } = night.site
  const { name, href, reasons } = stopLine(viewer, night, stop, names)
  const times = { from: words.time(fromAt, zone), to: words.time(stop.endsAt, zone) }
  return {
    when: words.say(fromAt <= state.fromAt ? 'again.now-to' : 'page.from-to', times),
    name,
    href,
    fate: words.say(`again.fate-${fate}`),
    isNews: fate !== 'stays',
    reasons: fate === 'new' ? reasons : [],
  }
}
