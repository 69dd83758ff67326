import type { GoNight } from '../../desk/go.ts'
import { READING_KINDS, type ReadingKind } from '../../tours/go-judge.ts'
import { type GoLimits, LIMIT_NAMES, type LimitName } from '../../tours/go-limits.ts'
import { usualDecision } from '../../tours/go-plan.ts'
import type { Night } from '../../tours/night.ts'
import { speedWritten, temperatureWritten } from '../../words/weather.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'

const isImperial = ({ settings }: Words): boolean => settings.units === 'imperial'

/** A label with the unit in which a bare number of its kind is read. */
const withUnit = (words: Words, label: string, kind: ReadingKind | LimitName): string =>
  kind === 'air' ? label : words.say('go.with-unit', { label, unit: unitText(words, kind) })

function unitText(words: Words, kind: ReadingKind | LimitName): string {
  if (kind === 'cloud' || kind === 'moonCloud') return words.say('go.unit-percent')
  if (kind === 'wind' || kind === 'gust') return words.say(isImperial(words) ? 'go.unit-mph' : 'go.unit-kmh')
  return words.say(isImperial(words) ? 'go.unit-fahrenheit' : 'go.unit-celsius')
}

/** What is seen or forecast now, each blank until somebody looks. */
export function valueFields(words: Words, state: FormState): readonly Field[] {
  const form = formFields(words, state)
  return READING_KINDS.map((kind) => {
    const label = words.say(`go.kind-${kind}`)
    if (kind === 'rain' || kind === 'thunder') {
      return form.choice(kind, { label }, [
        { value: '', text: words.say('go.not-looked') },
        { value: '0', text: words.say('go.no') },
        { value: '1', text: words.say('go.yes') },
      ])
    }
    const hint = words.say(`go.hint-${kind}`)
    return form.text(kind, { label: withUnit(words, label, kind), hint })
  })
}

/** What the host settles of the night: when it is decided, which limit of cloud holds, the next word and the back-up date. */
export function planFields(words: Words, state: FormState, night: Night, { plan, cloudLimit }: GoNight): Field[] {
  const form = formFields(words, state)
  const usualTime = words.time(usualDecision(night), night.site.zone)
  const usual = words.say(`go.cloud-${cloudLimit}`)
  const hint = plan.cloudLimit === null ? { hint: words.say('go.cloud-usual-is', { usual }) } : {}
  return [
    form.text('decidesAt', {
      label: words.say('go.decides-at'),
      hint: words.say('go.decides-at-hint', { time: usualTime }),
      fallback: plan.decidesAt ?? '',
    }),
    form.choice('cloudLimit', { label: words.say('go.cloud-limit'), ...hint, fallback: plan.cloudLimit ?? '' }, [
      { value: '', text: words.say('go.cloud-usual') },
      { value: 'moonCloud', text: words.say('go.cloud-moonCloud') },
      { value: 'cloud', text: words.say('go.cloud-cloud') },
    ]),
    form.text('nextWordAt', {
      label: words.say('go.next-word-at'),
      hint: words.say('go.next-word-at-hint'),
      fallback: plan.nextWordAt ?? '',
    }),
    form.text('nextWordWhere', {
      label: words.say('go.next-word-where'),
      hint: words.say('go.next-word-where-hint'),
      fallback: plan.nextWordWhere,
      isWide: true,
    }),
    form.text('backUpDate', {
      label: words.say('go.back-up-date'),
      hint: words.say('go.back-up-date-hint'),
      fallback: plan.backUpDate ?? '',
      type: 'date',
    }),
  ]
}

/** One limit as typed: from where on doubtful, from where on off. */
export interface LimitFields {
  readonly label: string
  readonly hint: string
  readonly fields: readonly Field[]
}

/** The host's limits, each with where its shipped value comes from. */
export function limitFields(words: Words, state: FormState, limits: GoLimits): readonly LimitFields[] {
  const form = formFields(words, state)
  return LIMIT_NAMES.map((name) => ({
    label: withUnit(words, words.say(`go.limit-of-${name}`), name),
    hint: words.say(`go.limit-from-${name}`),
    fields: (['doubtful', 'off'] as const).map((step) =>
      form.text(`${name}.${step}`, {
        label: words.say(name === 'temperature' ? `go.cold-${step}` : `go.from-${step}`),
        fallback: written(words, name, limits[name][step]),
      }),
    ),
  }))
}

function written({ settings }: Words, name: LimitName, value: number): string {
  if (name === 'wind' || name === 'gust') return speedWritten(value, settings.units)
  return name === 'temperature' ? temperatureWritten(value, settings.units) : String(value)
}

/** What rain makes of a night. */
export const rainField = (words: Words, state: FormState, { rain }: GoLimits): Field =>
  formFields(words, state).choice('rain', { label: words.say('go.rain-is'), fallback: rain }, [
    { value: 'off', text: words.say('go.state-off') },
    { value: 'doubtful', text: words.say('go.state-doubtful') },
  ])
