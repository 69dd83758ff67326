import type { Problem } from '../../errors.ts'
import { OWN_KINDS, type OwnObjectDraft } from '../../tours/own-object.ts'
import { type FormValues, numberOf } from './form-values.ts'

/** The values of an empty form: a small round comet that many would like to see; a choice. */
export const NEW_OWN_OBJECT: FormValues = { kind: 'comet', condensation: '4', appeal: '0.8' }

/** A comet or star from its form; what is blank for a star is left out, what cannot be read is NaN. */
export function ownObjectDraftOf(values: FormValues): OwnObjectDraft {
  const kind = OWN_KINDS.find((it) => it === values.kind) ?? 'comet'
  return {
    name: (values.name ?? '').trim(),
    kind,
    raDeg: angleOf(values.raDeg, 'h'),
    decDeg: angleOf(values.decDeg, 'd'),
    magnitude: numberOf(values.magnitude),
    ...(kind === 'comet' && {
      comaArcmin: numberOf(values.comaArcmin),
      condensation: numberOf(values.condensation),
    }),
    appeal: numberOf(values.appeal),
    appealReason: (values.appealReason ?? '').trim(),
  }
}

const PARTS = /^([+-]?)(\d{1,3})([hd])(?:(\d{1,2}(?:\.\d+)?)m)?(?:(\d{1,2}(?:\.\d+)?)s)?$/

/**
 * Degrees from what people copy out of a list: degrees as they are, `5h35.3m` or `5h35m17s` for a right ascension,
 * `-5d23m` or `-5° 23′ 28″` for a declination; NaN for anything else, and for minutes or seconds of 60 and more.
 */
export function angleOf(text: string | undefined, unit: 'h' | 'd'): number {
  const whole = numberOf(text)
  if (!Number.isNaN(whole)) return whole
  const [, sign, first = '', found, minutes = '0', seconds = '0'] = PARTS.exec(plain(text ?? '')) ?? []
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
    .replaceAll(/['’′]/g, 'm')
    .replaceAll(/["”″]/g, 's')

const SAID: Readonly<Record<string, string>> = {
  raDeg: 'problem.right-ascension',
  decDeg: 'problem.declination',
}

/** The problems with those of an angle that cannot be read saying how it is written. */
export const inAngleWords = (problems: readonly Problem[]): readonly Problem[] =>
  problems.map((problem) => {
    const key = problem.key === 'problem.type' ? SAID[problem.field] : undefined
    return key === undefined ? problem : { field: problem.field, key }
  })
