import type { PeopleNow } from '../../tours/line-now.ts'
import type { Words } from '../../words/words.ts'

interface HiddenField {
  readonly name: string
  readonly value: string
}

/** One tap at the gate: what it adds to the people on the field, and its words. */
interface GateAct {
  readonly text: string
  readonly adults: number
  readonly children: number
  readonly fields: readonly HiddenField[]
}

/** Counting people in and out. */
export interface Gate {
  readonly label: string
  readonly acts: readonly GateAct[]
  /** True until somebody has counted: those who are here already are to be counted first. */
  readonly isFirst: boolean
  readonly manyLabel: string
  readonly manyHint: string
  readonly adultsLabel: string
  readonly childrenLabel: string
  /** What the fields of many at once begin with: those who are expected while nobody has counted. */
  readonly adults: number
  readonly children: number
  readonly manyFields: readonly HiddenField[]
  readonly manyButton: string
}

/** Timing people by the phone, at one station; the script shows it, stops the time and fills in the seconds. */
export interface Timing {
  readonly fields: readonly HiddenField[]
  readonly people: number
  readonly peopleLabel: string
  readonly start: string
  readonly stop: string
  readonly forget: string
  /** With `#` for the seconds. */
  readonly running: string
  readonly tooShort: string
}

/** The same by a watch, for a phone without scripts. */
export interface WatchForm {
  readonly label: string
  readonly hint: string
  readonly stationLabel: string
  readonly stations: readonly { readonly value: string; readonly text: string }[]
  readonly peopleLabel: string
  readonly people: number
  readonly timeLabel: string
  readonly times: readonly { readonly value: number; readonly text: string; readonly isUsual: boolean }[]
  readonly fields: readonly HiddenField[]
  readonly button: string
}

/** What every act of the page needs. */
export interface ActGround {
  readonly words: Words
  readonly back: string
  /** Makes the key of one mark, new for every form. */
  readonly newKey: () => string
}

const GATE = {
  'adult-in': { adults: 1, children: 0 },
  'adult-out': { adults: -1, children: 0 },
  'child-in': { adults: 0, children: 1 },
  'child-out': { adults: 0, children: -1 },
  'family-in': { adults: 2, children: 2 },
  'family-out': { adults: -2, children: -2 },
} as const
const GATE_TAPS = ['adult-in', 'adult-out', 'child-in', 'child-out', 'family-in', 'family-out'] as const
/** As many people as a timing usually takes. */
const PEOPLE = 10
const USUAL_SEC = 500
/** The times that can be chosen: by ten seconds to a quarter of an hour, then by the half minute. */
const TIMES_SEC = [
  ...Array.from({ length: 85 }, (_, k) => 60 + 10 * k),
  ...Array.from({ length: 30 }, (_, k) => 930 + 30 * k),
]

/** The forms of the gate. */
export function gateOf(ground: ActGround, people: PeopleNow): Gate {
  const { words } = ground
  const isFirst = people.countedAt === null
  return {
    label: words.say('queue.gate'),
    acts: GATE_TAPS.map((tap) => ({
      text: words.say(`queue.${tap}`),
      ...GATE[tap],
      fields: hidden(ground, 'counted', null),
    })),
    isFirst,
    manyLabel: words.say(isFirst ? 'queue.many-first' : 'queue.many'),
    manyHint: words.say(isFirst ? 'queue.many-first-hint' : 'queue.many-hint'),
    adultsLabel: words.say('page.visitors-adults'),
    childrenLabel: words.say('page.visitors-children'),
    adults: isFirst ? people.adults : 0,
    children: isFirst ? people.children : 0,
    manyFields: hidden(ground, 'counted', null),
    manyButton: words.say('queue.many-add'),
  }
}

/** The form with which people are timed at a station. */
export const timingOf = (ground: ActGround, stationId: string): Timing => ({
  fields: hidden(ground, 'timed', stationId),
  people: PEOPLE,
  peopleLabel: ground.words.say('queue.how-many'),
  start: ground.words.say('queue.start'),
  stop: ground.words.say('queue.stop'),
  forget: ground.words.say('queue.forget'),
  running: ground.words.say('queue.running', { seconds: '#' }),
  tooShort: ground.words.say('queue.too-short'),
})

/** The form for people who were timed by a watch, or null where there is no station to time. */
export function watchForm(ground: ActGround, stations: readonly { id: string; name: string }[]): WatchForm | null {
  const { words } = ground
  if (stations.length === 0) return null
  return {
    label: words.say('queue.watch'),
    hint: words.say('queue.watch-hint'),
    stationLabel: words.say('page.station'),
    stations: stations.map(({ id, name }) => ({ value: id, text: name })),
    peopleLabel: words.say('queue.how-many'),
    people: PEOPLE,
    timeLabel: words.say('queue.watch-time'),
    times: TIMES_SEC.map((value) => ({ value, text: minutesText(value), isUsual: value === USUAL_SEC })),
    fields: hidden(ground, 'timed', null),
    button: words.say('queue.watch-keep'),
  }
}

/** `8:20` */
const minutesText = (seconds: number): string => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`

/** The hidden fields of an act: its key, its kind, the station where it names one, and the page to come back to. */
function hidden({ back, newKey }: ActGround, kind: string, stationId: string | null): HiddenField[] {
  const named = stationId === null ? {} : { stationId }
  return Object.entries({ key: newKey(), kind, ...named, back }).map(([name, value]) => ({ name, value }))
}
