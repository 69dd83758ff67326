import { declinationDeg } from '../../sky/magnetic.ts'
import { type ClockTonight, clockTonight } from '../../tours/clock-tonight.ts'
import { calendarDate, eveningSpan, wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { placeOf } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { changeValues, spanText } from './clock-text.ts'

/** One line that is read aloud: what it is about, what is said, and what to mind. */
export interface AloudLine {
  readonly label: string
  readonly said: string
  readonly notes: readonly string[]
}

interface AloudMoment {
  readonly night: Night
  /** The instant for which the lines hold. */
  readonly at: Date
  /** What is said for the time; null leaves a blank to write on. */
  readonly time: AloudLine | null
}

// From 6,000 nT down the model's makers call a compass unreliable, from memory.
const WEAK_NANOTESLA = 6000
const TRUE_DEG = 0.5
const POLE_STAR_LATITUDE_DEG = 10

/** All lines that are read aloud against the hand controller, in the order in which one asks for them. */
export function aloudLines(words: Words, { night, at, time }: AloudMoment): readonly AloudLine[] {
  const { site } = night
  const clock = clockTonight(site.zone, at, eveningSpan(night))
  return [
    line(words, 'place', site.name, ['place-note']),
    line(words, 'latitude', arcText(words, site.latitudeDeg, site.latitudeDeg < 0 ? 'south' : 'north'), [
      'latitude-note',
    ]),
    line(words, 'longitude', arcText(words, site.longitudeDeg, site.longitudeDeg < 0 ? 'west' : 'east'), [
      'longitude-note',
    ]),
    line(words, 'height', words.length(site.heightM, 'meter'), ['height-note']),
    dateLine(words, calendarDate(at, site.zone)),
    ...(time === null ? [line(words, 'time', '', ['time-paper'])] : [time]),
    offsetLine(words, clock),
    changeLine(words, night, clock),
    northLine(words, night, at),
  ]
}

const line = (words: Words, name: string, said: string, notes: readonly string[] = []): AloudLine => ({
  label: words.say(`aloud.${name}`),
  said,
  notes: notes.map((note) => words.say(`aloud.${note}`)),
})

/** `48 degrees 12 minutes north`. */
function arcText(words: Words, angleDeg: number, half: 'north' | 'south' | 'east' | 'west'): string {
  const minutes = Math.round(Math.abs(angleDeg) * 60)
  return words.say(`aloud.arc-${half}`, { degrees: Math.floor(minutes / 60), minutes: minutes % 60 })
}

function dateLine(words: Words, date: string): AloudLine {
  const [year = '', month = '', day = ''] = date.split('-').map((part) => String(Number(part)))
  const isSwappable = Number(day) <= 12
  const swap = isSwappable ? (day === month ? 'date-same' : 'date-swappable') : 'date-safe'
  return {
    label: words.say('aloud.date'),
    said: words.date(date),
    notes: [
      words.say('aloud.date-day-first', { day, month, year }),
      words.say('aloud.date-month-first', { day, month, year }),
      words.say(`aloud.${swap}`, { day, other: isSwappable ? words.month(Number(day)) : '' }),
    ],
  }
}

/** The time by the evening's clock, in 24 hours and in twelve. */
export function timeLine(words: Words, at: Date, zone: string): AloudLine {
  const [hour = '', minute = ''] = wallClock(at, zone).split(':')
  const values = { hour: ((Number(hour) + 11) % 12) + 1, minute }
  return {
    label: words.say('aloud.time'),
    said: `${hour}:${minute}`,
    notes: [words.say(Number(hour) < 12 ? 'aloud.time-am' : 'aloud.time-pm', values), words.say('aloud.time-note')],
  }
}

/** `plus 5 hours 45 minutes`. */
function offsetText(words: Words, offsetMin: number): string {
  if (offsetMin === 0) return words.say('aloud.offset-zero')
  const size = Math.abs(offsetMin)
  return words.say(offsetMin < 0 ? 'aloud.offset-minus' : 'aloud.offset-plus', { span: spanText(words, size) })
}

const offsetLine = (words: Words, { offsetMin, zoneMin, isForward }: ClockTonight): AloudLine => ({
  label: words.say('aloud.offset'),
  said: offsetText(words, offsetMin),
  notes: [
    words.say('aloud.offset-note'),
    ...(isForward ? [words.say('aloud.offset-apart', { offset: offsetText(words, zoneMin) })] : []),
  ],
})

function changeLine(words: Words, { site }: Night, { isForward, changes, change }: ClockTonight): AloudLine {
  const state = isForward ? 'on' : changes ? 'off' : 'never'
  const notes =
    change === null
      ? []
      : [
          words.say(change.toMin > change.fromMin ? 'aloud.change-forward' : 'aloud.change-back', {
            ...changeValues(words, change),
            date: words.date(calendarDate(change.at, site.zone)),
            offset: offsetText(words, change.toMin),
          }),
          words.say('aloud.change-leave'),
        ]
  return { label: words.say('aloud.change'), said: words.say(`aloud.change-${state}`), notes }
}

function northLine(words: Words, { site }: Night, at: Date): AloudLine {
  const needle = declinationDeg(placeOf(site), at)
  const offDeg = Math.abs(needle.declinationDeg)
  const way = offDeg < TRUE_DEG ? 'true' : needle.declinationDeg > 0 ? 'east' : 'west'
  const degrees = words.number(offDeg, offDeg < 10 ? 1 : 0)
  const isWeak = needle.levelNanotesla < WEAK_NANOTESLA
  return {
    label: words.say('aloud.north'),
    said: words.say(isWeak ? 'aloud.needle-weak' : `aloud.needle-${way}`, { degrees }),
    notes: [
      ...(isWeak || way === 'true' ? [] : [words.say(`aloud.turn-${way}`, { degrees }), words.say('aloud.turn-once')]),
      words.say('aloud.needle-phone'),
      words.say(poleCode(site.latitudeDeg)),
      words.say(needle.isWithin ? 'aloud.needle-model' : 'aloud.needle-outside'),
    ],
  }
}

const poleCode = (latitudeDeg: number): string =>
  latitudeDeg >= POLE_STAR_LATITUDE_DEG ? 'aloud.pole-star' : 'aloud.pole-none'

const WRONG = ['hour', 'half-day', 'day-month', 'star', 'place', 'needle', 'finder', 'backlash'] as const

/** What a wrong entry looks like later, and how it is caught. */
export interface WrongEntry {
  readonly wrong: string
  readonly seen: string
  readonly caught: string
}

export const wrongEntries = (words: Words): readonly WrongEntry[] =>
  WRONG.map((name) => ({
    wrong: words.say(`aloud.wrong-${name}`),
    seen: words.say(`aloud.seen-${name}`),
    caught: words.say(`aloud.caught-${name}`),
  }))

export const wrongLabels = (words: Words) => ({
  wrongLabel: words.say('aloud.wrong'),
  seenLabel: words.say('aloud.seen'),
  caughtLabel: words.say('aloud.caught'),
})
