import type { Problem } from '../../errors.ts'
import type { Dated } from '../../tours/hours.ts'
import { isAskedOf, isKindField, isOwnKind } from '../../tours/own-kinds.ts'
import type { OwnObjectDraft } from '../../tours/own-object.ts'
import { instantAsTyped, isLocalTime, typedInstant } from '../../tours/own-pass.ts'
import { pointAt } from '../../tours/pointing.ts'
import type { Words } from '../../words/words.ts'
import { bearingDeg } from '../pages/bearing.ts'
import { keptWhy, whyText } from '../pages/own-why.ts'
import { pointText } from '../pages/say.ts'
import { type FormValues, numberOf } from './form-values.ts'

/** What a typed text is read by: the compass points of a language, and the clocks of the nights. */
interface Reading {
  readonly words: Words
  readonly nights: readonly Dated[]
}

/** The values of an empty form: something that many like to see; a choice. */
export const NEW_OWN_OBJECT: FormValues = { kind: 'open-cluster', appeal: '0.5' }

type Read = (text: string, reading: Reading) => unknown

const asText: Read = (text) => text
const asNumber: Read = (text) => numberOf(text)
/** `12,500` might be either of two numbers, a thousand times apart: nobody guesses which. */
const asCount: Read = (text) => (/\d[,.'’ ]\d{3}(?!\d)/.test(text) ? Number.NaN : numberOf(text))
const asInstant: Read = (text, { nights }) => typedInstant(text, nights) ?? text
const asPoint: Read = (text, { words }) => pointAt(bearingDeg(words, text))

const READ: Readonly<Record<keyof OwnObjectDraft, Read>> = {
  name: asText,
  kind: asText,
  raDeg: (text) => angleOf(text, 'h'),
  decDeg: (text) => angleOf(text, 'd'),
  magnitude: asNumber,
  majorArcmin: asNumber,
  minorArcmin: asNumber,
  starCount: asCount,
  brightestStarMag: asNumber,
  secondMagnitude: asNumber,
  separationArcsec: asNumber,
  colour: asText,
  secondColour: asText,
  condensation: asNumber,
  fieldDeg: asNumber,
  distanceLy: asCount,
  fromAt: asInstant,
  toAt: asInstant,
  fromPoint: asPoint,
  toPoint: asPoint,
  appeal: asNumber,
  appealReason: (text, { words }) => keptWhy(words, text),
}

/** The texts that count: of a form that shows the fields of the chosen kind alone, those of all other kinds do not. */
export function judgedOf(values: FormValues): FormValues {
  const { kind } = values
  if (values.ofKind !== 'true' || !isOwnKind(kind)) return values
  return Object.fromEntries(Object.entries(values).filter(([field]) => !isKindField(field) || isAskedOf(kind, field)))
}

/** A thing from its texts, by field; what is blank is left out, what cannot be read is NaN or stays the text that it is. */
export function ownObjectDraftOf(values: FormValues, reading: Reading): Readonly<Record<string, unknown>> {
  const read = Object.entries(READ).flatMap(([field, readText]) => {
    const text = (values[field] ?? '').trim()
    return text === '' ? [] : [[field, readText(text, reading)] as const]
  })
  return Object.fromEntries(read)
}

/** A thing as its form shows it. */
export function ownObjectValues(draft: OwnObjectDraft, { words, nights }: Reading): FormValues {
  const texts = Object.entries(draft).map(([field, value]) => [field, String(value)])
  const { fromAt, toAt, fromPoint, toPoint } = draft
  return {
    ...Object.fromEntries(texts),
    appealReason: whyText(words, draft.appealReason),
    ...(fromAt !== undefined && { fromAt: instantAsTyped(fromAt, nights) }),
    ...(toAt !== undefined && { toAt: instantAsTyped(toAt, nights) }),
    ...(fromPoint !== undefined && { fromPoint: pointText(words, fromPoint) }),
    ...(toPoint !== undefined && { toPoint: pointText(words, toPoint) }),
  }
}

const PARTS = /^([+-]?)(\d{1,3})([hd])(?:(\d{1,2}(?:\.\d+)?)m)?(?:(\d{1,2}(?:\.\d+)?)s)?$/

/**
 * Degrees from what people copy out of a list: degrees as they are, `5h35.3m` or `05h 35m 17s` for a right ascension,
 * `-5d23m` or `-5° 23′ 28″` for a declination; NaN for anything else, and for minutes or seconds of 60 and more.
 */
export function angleOf(text: string, unit: 'h' | 'd'): number {
  const whole = numberOf(text)
  if (!Number.isNaN(whole)) return whole
  const [, sign, first = '', found, minutes = '0', seconds = '0'] = PARTS.exec(plain(text)) ?? []
  if (found !== unit || Number(minutes) >= 60 || Number(seconds) >= 60) return Number.NaN
  const size = (Number(first) + Number(minutes) / 60 + Number(seconds) / 3600) * (unit === 'h' ? 15 : 1)
  return sign === '-' ? -size : size
}

/** Without blanks, in small letters, with a point and the letters d, m and s for their signs. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\s/g, '')
    .replaceAll(',', '.')
    .replaceAll('−', '-')
    .replaceAll('°', 'd')
    .replaceAll(/''|["”″]/g, 's')
    .replaceAll(/['’′]/g, 'm')

/** How a field that cannot be read is to be written, where "a number" would not say enough. */
const UNREAD: Readonly<Record<string, string>> = {
  raDeg: 'problem.right-ascension',
  decDeg: 'problem.declination',
  fromPoint: 'problem.bearing',
  toPoint: 'problem.bearing',
  starCount: 'problem.no-thousands',
  distanceLy: 'problem.no-thousands',
}
const UNREAD_KEYS = ['problem.type', 'problem.type-integer']

/** The problems with those of a field that cannot be read saying how it is written; `values` are the texts. */
export const inOwnWords = (problems: readonly Problem[], values: FormValues): readonly Problem[] =>
  problems.map((problem) => {
    const { field, key } = problem
    const unread = UNREAD_KEYS.includes(key) ? UNREAD[field] : undefined
    if (unread !== undefined) return { field, key: unread }
    if (key !== 'problem.pattern') return problem
    return { field, key: isLocalTime(values[field] ?? '') ? 'problem.no-night-then' : 'problem.pass-time' }
  })
