import { type GoValues, READING_KINDS, type ReadingKind } from '../../tours/go-judge.ts'
import { LIMIT_NAMES, type LimitName } from '../../tours/go-limits.ts'
import { clockSaid } from '../../words/clock-said.ts'
import { speedTyped, temperatureTyped } from '../../words/weather.ts'
import { UNITS, type Units } from '../../words/words.ts'
import { type FormValues, numberOf } from './form-values.ts'

/** The units in which the form was filled in: those that its labels named, whatever the reader has chosen since. */
const unitsOf = ({ units }: FormValues): Units => UNITS.find((known) => known === units) ?? 'metric'

function typed(name: ReadingKind | LimitName, text: string, units: Units): number {
  if (name === 'wind' || name === 'gust') return speedTyped(text, units)
  if (name === 'temperature') return temperatureTyped(text, units)
  return numberOf(text.replace(/%\s*$/, ''))
}

/** What was filled in; what is blank is left out, what is no number is NaN. */
export function goValuesOf(values: FormValues): GoValues {
  const units = unitsOf(values)
  return Object.fromEntries(
    READING_KINDS.flatMap((kind) => {
      const text = (values[kind] ?? '').trim()
      return text === '' ? [] : [[kind, typed(kind, text, units)] as const]
    }),
  )
}

const PARTS = ['doubtful', 'off'] as const
/** The fields that show what is kept where nothing was sent. */
export const LIMIT_FIELDS = LIMIT_NAMES.flatMap((name) => PARTS.map((part) => `${name}.${part}`))
export const PLAN_FIELDS = ['decidesAt', 'cloudLimit', 'nextWordAt', 'nextWordWhere', 'backUpDate'] as const

/** The limits of the form; what is blank or no number is NaN. */
export function goLimitsOf(values: FormValues): object {
  const units = unitsOf(values)
  const step = (name: LimitName, part: (typeof PARTS)[number]) => typed(name, values[`${name}.${part}`] ?? '', units)
  const limits = LIMIT_NAMES.map(
    (name) => [name, { doubtful: step(name, 'doubtful'), off: step(name, 'off') }] as const,
  )
  return { ...Object.fromEntries(limits), rain: values.rain }
}

/** The plan of the form; what is blank takes the usual. */
export function goPlanOf(values: FormValues): object {
  const orNull = (name: string): string | null => (values[name] ?? '').trim() || null
  const clockOrNull = (name: string): string | null => clockSaid((values[name] ?? '').trim()) || null
  return {
    decidesAt: clockOrNull('decidesAt'),
    cloudLimit: orNull('cloudLimit'),
    nextWordAt: clockOrNull('nextWordAt'),
    nextWordWhere: (values.nextWordWhere ?? '').trim().replace(/\s+/g, ' '),
    backUpDate: orNull('backUpDate'),
  }
}
