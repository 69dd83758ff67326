import type { MessageValues } from '../errors.ts'
import { dateFormat, listFormat, numberFormat } from './formats.ts'
import { type LengthUnit, lengthText } from './length.ts'
import { speedText, temperatureText } from './weather.ts'

/** A message, or its plural forms chosen by `values.count`. Blanks are written `{name}`. */
export type Message = string | Readonly<Partial<Record<Intl.LDMLPluralRule, string>>>
export type MessageTable = Readonly<Record<string, Message>>

export const UNITS = ['metric', 'imperial', 'both'] as const
export type Units = (typeof UNITS)[number]

export interface WordsSettings {
  readonly language: string
  readonly hours12: boolean
  readonly units: Units
}

export type Words = ReturnType<typeof createWords>

/**
 * Turns codes and numbers into finished words in one language.
 * `say` throws on an unknown key, so that a missing sentence is found by the first test that needs it. `names` are
 * those of things in the sky as the language has them, by the catalogue's own.
 */
export function createWords(
  table: MessageTable,
  settings: WordsSettings,
  names: ReadonlyMap<string, string> = new Map(),
) {
  // A year or a port has no gaps; the decimal mark is the language's own.
  const plain = numberFormat(settings.language, { useGrouping: false, maximumFractionDigits: 12 })
  const decimalMark = plain.format(0.5).charAt(1)
  const plurals = new Intl.PluralRules(settings.language)

  function pattern(key: string, values: MessageValues): string {
    const message = table[key]
    if (message === undefined) throw new Error(`No message named ${key}`)
    if (typeof message === 'string') return message
    const form = message[plurals.select(Number(values.count ?? 0))] ?? message.other
    if (form === undefined) throw new Error(`Message ${key} has no plural form for ${values.count}`)
    return form
  }

  const called = (name: string): string => names.get(name) ?? name
  const written = (value: MessageValues[string] | undefined): string =>
    typeof value === 'number' ? plain.format(value) : called(value ?? '')

  const say = (key: string, values: MessageValues = {}): string =>
    pattern(key, values).replace(/\{(\w+)\}/g, (_blank, name: string) => written(values[name]))

  return {
    settings,
    /** True when the table knows the key. */
    knows: (key: string): boolean => key in table,
    /** The message `key` with its blanks filled; `values.count` chooses the plural form. */
    say,
    /** What the language says for a name or a short text of the catalogue; any other text as it is. Blanks of messages are filled so too. */
    called,
    /** Wall-clock time in the zone, `18:40` or `6:40 pm`; one that comes for the second time says so, `second 02:15`. */
    time: (at: Date, zone: string): string => {
      const time = timeText(at, zone, settings)
      return isSecond(at, zone, settings, time) ? say('page.second-time', { time }) : time
    },
    /** A calendar date with the month as a word; `date` is `YYYY-MM-DD`. */
    date: (date: string): string => dateText(new Date(`${date}T12:00Z`), settings),
    /** The day of the week of a calendar date, as a word. */
    weekday: (date: string): string =>
      dateFormat(settings.language, { weekday: 'long', timeZone: 'UTC' }).format(new Date(`${date}T12:00Z`)),
    /** A month of the calendar, 1 to 12, as a word, or shortened to a few letters. */
    month: (month: number, length: 'long' | 'short' = 'long'): string =>
      dateFormat(settings.language, { month: length, timeZone: 'UTC' }).format(Date.UTC(2001, month - 1, 15)),
    /** The day and month of an instant in a zone. */
    dayAndMonth: (at: Date, zone: string): string =>
      dateFormat(localeOf(settings), { day: 'numeric', month: 'long', timeZone: zone }).format(at),
    /** A number with `digits` decimals in the language's own writing. */
    number: (value: number, digits = 0): string =>
      numberFormat(settings.language, { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value),
    /** Figures kept with a point, with the language's own mark, `0,28`; any other text as it is. Forms read both. */
    figures: (text: string): string => text.replace(/^([+-]?\d+)\.(\d+)$/, `$1${decimalMark}$2`),
    /** A length in the reader's units, `130 cm`, `51 in` or both; what belongs to optics stays in millimetres. */
    length: (value: number, unit: LengthUnit): string => lengthText(value, unit, settings),
    /** A speed of the wind in the reader's units, `29 km/h`, `18 mph` or both. */
    speed: (kmh: number): string => speedText(kmh, settings),
    /** A temperature of the air in the reader's units, `-2°C`, `28°F` or both. */
    temperature: (celsius: number): string => temperatureText(celsius, settings),
    /** `a, b and c` in the language's own way. */
    list: (items: readonly string[]): string =>
      listFormat(settings.language, { style: 'long', type: 'conjunction' }).format(items),
  }
}

/** Whoever reads English by a clock of 24 hours is used to the day before the month. */
const BRITISH = 'en-GB'
const localeOf = ({ language, hours12 }: WordsSettings): string => (language === 'en' && !hours12 ? BRITISH : language)

/** `Thursday 17 December 2026`, or as the language has it; versions of the system disagree about a comma in the first. */
function dateText(at: Date, settings: WordsSettings): string {
  const locale = localeOf(settings)
  const said = (options: Intl.DateTimeFormatOptions): string =>
    dateFormat(locale, { ...options, timeZone: 'UTC' }).format(at)
  if (locale !== BRITISH) return said({ dateStyle: 'full' })
  return `${said({ weekday: 'long' })} ${said({ day: 'numeric', month: 'long', year: 'numeric' })}`
}

/** By how much clocks go back: an hour nearly everywhere, half an hour on Lord Howe Island, two hours at Troll. */
const BACK_MS = [3_600_000, 1_800_000, 7_200_000]

/** True when the clocks have gone back and show a time that they showed before. */
const isSecond = (at: Date, zone: string, settings: WordsSettings, time: string): boolean =>
  BACK_MS.some((ms) => timeText(new Date(at.getTime() - ms), zone, settings) === time)

function timeText(at: Date, zone: string, { language, hours12 }: WordsSettings): string {
  const options = { hour: hours12 ? 'numeric' : '2-digit', minute: '2-digit', timeZone: zone } as const
  return dateFormat(language, { ...options, hourCycle: hours12 ? 'h12' : 'h23' }).format(at)
}
