import type { TelescopeDraft } from '../../tours/telescope.ts'
import { type FormValues, filledRows, numberOf, withRows } from './form-values.ts'

type Design = TelescopeDraft['tubes'][number]['design']

/** Share of light that reaches the eye and shadow of the second mirror for a tube that does not say; from memory. */
const USUAL: Readonly<Record<Design, { transmission: number; obstruction: number }>> = {
  refractor: { transmission: 0.93, obstruction: 0 },
  reflector: { transmission: 0.82, obstruction: 0.25 },
  catadioptric: { transmission: 0.8, obstruction: 0.34 },
}

const isDesign = (text: string | undefined): text is Design => text !== undefined && Object.hasOwn(USUAL, text)
const MOUNTS = ['altaz-driven', 'altaz-hand', 'equatorial'] as const
const REACHES = ['side', 'folded', 'no'] as const
const among = <Choice extends string>(choices: readonly Choice[], text: string | undefined, usual: Choice): Choice =>
  choices.find((choice) => choice === text) ?? usual

/** The form's values with blank tubes and eyepieces left out, so that row numbers are those of the draft. */
export const telescopeRows = (values: FormValues): FormValues =>
  withRows(values, {
    tubes: filledRows(values, 'tubes', (part) => part === 'apertureMm' || part === 'focalLengthMm' || part === 'name'),
    eyepieces: filledRows(values, 'eyepieces', () => true),
  })

/** A telescope from its form, with `values` as `telescopeRows` gives them. */
export function telescopeDraftOf(values: FormValues): TelescopeDraft {
  return {
    name: (values.name ?? '').trim(),
    mount: among(MOUNTS, values.mount, 'altaz-driven'),
    tubes: filledRows(values, 'tubes', () => true).map(tubeOf),
    eyepieces: filledRows(values, 'eyepieces', () => true).map(eyepieceOf),
    axisLowCm: numberOf(values.axisLowCm),
    axisHighCm: numberOf(values.axisHighCm),
    chairReach: among(REACHES, values.chairReach, 'no'),
    floorDeg: numberOf(values.floorDeg),
    ceilingDeg: numberOf(values.ceilingDeg),
  }
}

function tubeOf(row: FormValues): TelescopeDraft['tubes'][number] {
  const design = isDesign(row.design) ? row.design : 'refractor'
  const { transmission, obstruction } = USUAL[design]
  return {
    name: row.name ?? `${row.apertureMm ?? '?'} mm`,
    design,
    apertureMm: numberOf(row.apertureMm),
    focalLengthMm: numberOf(row.focalLengthMm),
    obstruction: row.obstruction === undefined ? obstruction : numberOf(row.obstruction),
    transmission,
    hasDiagonal: row.hasDiagonal === 'true',
  }
}

const eyepieceOf = (row: FormValues): TelescopeDraft['eyepieces'][number] => ({
  name: row.name ?? `${row.focalLengthMm ?? '?'} mm`,
  focalLengthMm: numberOf(row.focalLengthMm),
  apparentFieldDeg: numberOf(row.apparentFieldDeg),
  fieldStopMm: null,
})
