import type { Problem } from '../../errors.ts'
import { BUSY_KINDS, type BusyDays, type BusyKind, type DateRules, NIGHT_KINDS } from '../../tours/date-rules.ts'
import { clockSaid } from '../../words/clock-said.ts'
import type { Words } from '../../words/words.ts'
import { type FormValues, inClockWords, numberOf } from './form-values.ts'

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7]
const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1)
const NUMBERS = ['afterSunsetMin', 'darkHours', 'moonDays', 'fullDays', 'weeksApart', 'backUpDays'] as const
const CLOCKS = ['opensFrom', 'bedtime']
const MOST_LETTERS = 60
const MOST_LINES = 100

/** The values of the form for rules that are kept. */
export function dateRuleValues(rules: DateRules, words: Words): FormValues {
  const ticks = (name: 'weekdays' | 'months') => rules[name].map((number) => [`${name}.${number}`, 'true'])
  return {
    kind: rules.kind,
    opensFrom: rules.opensFrom,
    bedtime: rules.bedtime,
    ...(rules.isMoonRuled ? { isMoonRuled: 'true' } : {}),
    ...Object.fromEntries(NUMBERS.map((name) => [name, String(rules[name])])),
    ...Object.fromEntries([...ticks('weekdays'), ...ticks('months')]),
    ...Object.fromEntries(BUSY_KINDS.map((kind) => [kind, rules[kind].map((days) => lineOf(days, words)).join('\n')])),
  }
}

const lineOf = ({ from, to, name }: BusyDays, words: Words): string =>
  `${from === to ? from : `${from} ${words.say('dates.busy-to')} ${to}`} ${name}`.trim()

/** A line of a list of days, numbered as the host sees it. */
interface Line {
  readonly number: number
  readonly text: string
}

const linesOf = (text: string | undefined): readonly Line[] =>
  (text ?? '')
    .split(/\r\n|\r|\n/)
    .map((line, i) => ({ number: i + 1, text: line.trim() }))
    .filter(({ text: line }) => line !== '')

const DAY = String.raw`(\d{4}-\d\d-\d\d)`

/** A day, or two with a dash, the language's word or the English one between them, and what is on. */
const daysPattern = (words: Words): RegExp => {
  const between = String.raw`(?:\s+(?:to|${words.say('dates.busy-to')})\s+|\s*[-–—]\s*)`
  return new RegExp(String.raw`^${DAY}(?:${between}${DAY})?(?:[\s,;:]+(.*))?$`, 'iu')
}

function daysOf({ text }: Line, pattern: RegExp): BusyDays {
  const [, from, to, name = ''] = pattern.exec(text) ?? []
  return from === undefined ? { from: text, to: text, name: '' } : { from, to: to ?? from, name: name.trim() }
}

/** Rules from their form. */
export function dateRulesOf(values: FormValues, words: Words): DateRules {
  const pattern = daysPattern(words)
  const ticked = (name: string, all: readonly number[]) =>
    all.filter((number) => values[`${name}.${number}`] === 'true')
  const busy = (kind: BusyKind) => linesOf(values[kind]).map((line) => daysOf(line, pattern))
  return {
    kind: NIGHT_KINDS.find((kind) => kind === values.kind) ?? 'town',
    afterSunsetMin: numberOf(values.afterSunsetMin),
    opensFrom: clockSaid((values.opensFrom ?? '').trim()),
    bedtime: clockSaid((values.bedtime ?? '').trim()),
    darkHours: numberOf(values.darkHours),
    weekdays: ticked('weekdays', WEEKDAYS),
    months: ticked('months', MONTHS),
    isMoonRuled: values.isMoonRuled === 'true',
    moonDays: numberOf(values.moonDays),
    fullDays: numberOf(values.fullDays),
    weeksApart: numberOf(values.weeksApart),
    backUpDays: numberOf(values.backUpDays),
    holiday: busy('holiday'),
    club: busy('club'),
    event: busy('event'),
  }
}

/** The problems of rules, those of a list at its field with the number of the line. */
export function dateRuleFormProblems(problems: readonly Problem[], values: FormValues): readonly Problem[] {
  const shown = problems.map((problem): Problem => {
    const [list = '', row, part] = problem.field.split('.')
    const kind = BUSY_KINDS.find((name) => name === list)
    if (kind === undefined) return inClockWords(CLOCKS)(problem)
    if (row === undefined) return { field: kind, key: 'problem.busy-many', values: { maximum: MOST_LINES } }
    const line = linesOf(values[kind])[Number(row)]
    const at = { ...problem.values, line: line?.number ?? 0 }
    if (part === undefined) return { ...problem, field: kind, values: at }
    if (part === 'name') return { field: kind, key: 'problem.busy-long', values: { ...at, maximum: MOST_LETTERS } }
    return { field: kind, key: 'problem.busy-line', values: { ...at, text: line?.text ?? '' } }
  })
  // Both ends of a line that is no date are wrong, and are one problem.
  const names = shown.map((problem) => JSON.stringify(problem))
  return shown.filter((_, i) => names.indexOf(names[i] ?? '') === i)
}
