import { USUAL_GLASS } from '../../tours/kit-usual.ts'
import type { Design } from '../../tours/kit-words.ts'
import type { Telescope, TelescopeDraft } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { keptNote, noteText } from '../pages/kit-note.ts'
import { MOST_EYEPIECES, MOST_FACTORS } from '../pages/telescope-form.ts'
import { FINDER_KINDS, finderName } from '../pages/telescope-kit-fields.ts'
import { type FormValues, filledRows, numberOf, rowCount, withRows } from './form-values.ts'

const isDesign = (text: string | undefined): text is Design => text !== undefined && Object.hasOwn(USUAL_GLASS, text)
const MOUNTS = ['altaz-driven', 'altaz-hand', 'equatorial'] as const
const REACHES = ['side', 'folded', 'no'] as const
const among = <Choice extends string>(choices: readonly Choice[], text: string | undefined, usual: Choice): Choice =>
  choices.find((choice) => choice === text) ?? usual

const FEWEST_EYEPIECES = 3
const FEWEST_FACTORS = 1

/** The values of an empty form for a new telescope; common practice, no source. */
export const NEW_TELESCOPE: FormValues = { axisLowCm: '90', axisHighCm: '130', floorDeg: '10', ceilingDeg: '80' }

/** How many rows of eyepieces, and of Barlows and reducers, the form shows; one more of what was asked for. */
export function telescopeRowCounts(values: FormValues): { readonly eyepieces: number; readonly factors: number } {
  const eyepieces = rowCount(values, 'eyepieceRows', FEWEST_EYEPIECES, MOST_EYEPIECES)
  const factors = rowCount(values, 'factorRows', FEWEST_FACTORS, MOST_FACTORS)
  return {
    eyepieces: Math.min(MOST_EYEPIECES, eyepieces + Number(values.act === 'more')),
    factors: Math.min(MOST_FACTORS, factors + Number(values.act === 'more-factors')),
  }
}

/** The form's values with blank tubes, eyepieces, Barlows and reducers left out, so that row numbers are those of the draft. */
export const telescopeRows = (values: FormValues): FormValues =>
  withRows(values, {
    tubes: filledRows(values, 'tubes', (part) => part !== 'design'),
    eyepieces: filledRows(values, 'eyepieces', () => true),
    factors: filledRows(values, 'factors', () => true),
  })

/** A telescope from its form, with `values` as `telescopeRows` gives them. */
export function telescopeDraftOf(values: FormValues, words: Words): TelescopeDraft {
  return {
    name: (values.name ?? '').trim(),
    mount: among(MOUNTS, values.mount, 'altaz-driven'),
    tubes: filledRows(values, 'tubes', () => true).map(tubeOf),
    eyepieces: filledRows(values, 'eyepieces', () => true).map(eyepieceOf),
    factors: filledRows(values, 'factors', () => true).map((row) => factorOf(row, words)),
    axisLowCm: numberOf(values.axisLowCm),
    axisHighCm: numberOf(values.axisHighCm),
    chairReach: among(REACHES, values.chairReach, 'no'),
    floorDeg: numberOf(values.floorDeg),
    ceilingDeg: numberOf(values.ceilingDeg),
    ...keptOf(values, words),
  }
}

/** A blank field leaves its part out; a finder of which numbers are known and no kind is taken for a straight one. */
function keptOf(values: FormValues, words: Words): Pick<TelescopeDraft, 'finder' | 'inKitSince' | 'note'> {
  const [fieldDeg, powerX] = [orNull(values[finderName('fieldDeg')]), orNull(values[finderName('powerX')])]
  const isKnown = Boolean(values[finderName('kind')]) || fieldDeg !== null || powerX !== null
  const inKitSince = orNull(values.inKitSince)
  const note = keptNote(words, (values.note ?? '').trim())
  return {
    ...(isKnown && { finder: { kind: among(FINDER_KINDS, values[finderName('kind')], 'straight'), fieldDeg, powerX } }),
    ...(inKitSince !== null && { inKitSince }),
    ...(note !== '' && { note }),
  }
}

const orNull = (text = ''): number | null => (text.trim() === '' ? null : numberOf(text))

/** What a part without a name is called: by its own number. */
const mmName = (mm: string | number | undefined): string => `${mm ?? '?'} mm`
const factorName = (words: Words, factor: number): string =>
  words.say(factor < 1 ? 'page.factor-reducer' : 'page.factor-barlow', { factor: Number.isNaN(factor) ? '?' : factor })

const orUsual = (text: string | undefined, usual: number): number => (text === undefined ? usual : numberOf(text))

function tubeOf(row: FormValues): TelescopeDraft['tubes'][number] {
  const design = isDesign(row.design) ? row.design : 'refractor'
  return {
    name: row.name ?? mmName(row.apertureMm),
    design,
    apertureMm: numberOf(row.apertureMm),
    focalLengthMm: numberOf(row.focalLengthMm),
    obstruction: orUsual(row.obstruction, USUAL_GLASS[design].obstruction),
    transmission: orUsual(row.transmission, USUAL_GLASS[design].transmission),
    hasDiagonal: row.hasDiagonal === 'true',
  }
}

const eyepieceOf = (row: FormValues): TelescopeDraft['eyepieces'][number] => ({
  name: row.name ?? mmName(row.focalLengthMm),
  focalLengthMm: numberOf(row.focalLengthMm),
  apparentFieldDeg: numberOf(row.apparentFieldDeg),
  fieldStopMm: row.fieldStopMm === undefined ? null : numberOf(row.fieldStopMm),
})

function factorOf(row: FormValues, words: Words): NonNullable<TelescopeDraft['factors']>[number] {
  const factor = numberOf(row.factor)
  return { name: row.name ?? factorName(words, factor), factor }
}

/** The values of the form of a kept telescope; names and numbers that a blank field stands for are left blank. */
export function telescopeValues(telescope: Telescope, words: Words): FormValues {
  const { name, mount, tubes, eyepieces, factors, chairReach } = telescope
  const { axisLowCm, axisHighCm, floorDeg, ceilingDeg, finder, inKitSince = null } = telescope
  const values = {
    ...filled({ axisLowCm, axisHighCm, floorDeg, ceilingDeg, inKitSince, note: noteText(words, telescope.note) }),
    ...(finder &&
      filled({
        [finderName('kind')]: finder.kind,
        [finderName('fieldDeg')]: finder.fieldDeg,
        [finderName('powerX')]: finder.powerX,
      })),
    name,
    mount,
    chairReach,
    eyepieceRows: String(eyepieces.length),
    factorRows: String(factors.length),
  }
  return withRows(values, {
    tubes: tubes.map(tubeValues),
    eyepieces: eyepieces.map((eyepiece) => {
      const { focalLengthMm, apparentFieldDeg, fieldStopMm } = eyepiece
      const own = eyepiece.name === mmName(focalLengthMm) ? null : eyepiece.name
      return filled({ name: own, focalLengthMm, apparentFieldDeg, fieldStopMm })
    }),
    factors: factors.map(({ name: own, factor }) =>
      filled({ name: own === factorName(words, factor) ? null : own, factor }),
    ),
  })
}

function tubeValues({ name, design, hasDiagonal, ...tube }: Telescope['tubes'][number]): FormValues {
  const { apertureMm, focalLengthMm, obstruction, transmission } = tube
  const usual = USUAL_GLASS[design]
  return filled({
    name: name === mmName(apertureMm) ? null : name,
    design,
    apertureMm,
    focalLengthMm,
    obstruction: obstruction === usual.obstruction ? null : obstruction,
    transmission: transmission === usual.transmission ? null : transmission,
    hasDiagonal: hasDiagonal ? 'true' : null,
  })
}

/** What is known, as text for a form. */
const filled = (parts: Readonly<Record<string, string | number | null>>): FormValues =>
  Object.fromEntries(Object.entries(parts).flatMap(([key, value]) => (value === null ? [] : [[key, String(value)]])))
