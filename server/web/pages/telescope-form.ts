import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import type { GrowingRows } from './site-rows.ts'

export interface FormRow {
  readonly title: string
  readonly fields: readonly Field[]
}

export interface TelescopeFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly fields: readonly Field[]
  readonly tubesLabel: string
  readonly tubesHint: string
  readonly tubes: readonly FormRow[]
  readonly eyepiecesLabel: string
  readonly eyepiecesHint: string
  readonly eyepieces: readonly FormRow[]
  readonly eyepieceRows: GrowingRows
  readonly factorsLabel: string
  readonly factorsHint: string
  readonly factors: readonly FormRow[]
  readonly factorRows: GrowingRows
  readonly heightsLabel: string
  readonly heights: readonly Field[]
  readonly moreLabel: string
  readonly isMoreOpen: boolean
  readonly more: readonly Field[]
  readonly save: string
}

export interface TelescopeFormSubject {
  /** The telescope's id, or null for a new one. */
  readonly id: string | null
  readonly state: FormState
  readonly rows: { readonly eyepieces: number; readonly factors: number }
}

const TUBES = 2
export const MOST_EYEPIECES = 12
export const MOST_FACTORS = 3

/** The form of a telescope: its mount, one or two tubes, eyepieces, Barlows and reducers, and how high it stands. */
export function telescopeFormPage(viewer: Viewer, { id, state, rows }: TelescopeFormSubject): TelescopeFormPage {
  const { words } = viewer
  const title = words.say(id === null ? 'page.new-telescope' : 'page.edit-telescope')
  const fields = mountFields(words, state)
  const tubes = Array.from({ length: TUBES }, (_, index) => tubeRow(words, state, index))
  const eyepieces = Array.from({ length: rows.eyepieces }, (_, index) => eyepieceRow(words, state, index))
  const factors = Array.from({ length: rows.factors }, (_, index) => factorRow(words, state, index))
  const heights = heightFields(words, state)
  const more = limitFields(words, state)
  const parts = [...tubes, ...eyepieces, ...factors].flatMap((row) => row.fields)
  return {
    sheet: daySheet(viewer, title, 'telescopes'),
    ...labels(words),
    title,
    intro: words.say(id === null ? 'page.new-telescope-intro' : 'page.edit-telescope-intro'),
    action: id === null ? '/telescopes' : `/telescopes/${id}`,
    problems: problemList(words, state, [...fields, ...parts, ...heights, ...more]),
    fields,
    tubes,
    eyepieces,
    eyepieceRows: growing('eyepieceRows', rows.eyepieces, MOST_EYEPIECES, words.say('page.more-eyepieces')),
    factors,
    factorRows: growing('factorRows', rows.factors, MOST_FACTORS, words.say('page.more-factors')),
    heights,
    more,
    isMoreOpen: more.some(({ isInvalid }) => isInvalid),
  }
}

const growing = (name: string, count: number, most: number, text: string): GrowingRows => ({
  name,
  count: String(count),
  moreText: count < most ? text : null,
})

const labels = (words: Words) => ({
  tubesLabel: words.say('page.tubes'),
  tubesHint: words.say('page.tubes-hint'),
  eyepiecesLabel: words.say('page.eyepieces'),
  eyepiecesHint: words.say('page.eyepieces-hint'),
  factorsLabel: words.say('page.factors'),
  factorsHint: words.say('page.factors-hint'),
  heightsLabel: words.say('page.heights'),
  moreLabel: words.say('page.more-telescope'),
  save: words.say('page.save-telescope'),
})

const options = (words: Words, group: string, values: readonly string[]) =>
  values.map((value) => ({ value, text: words.say(`${group}.${value}`) }))

function mountFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const mounts = options(words, 'mount', ['altaz-driven', 'altaz-hand', 'equatorial'])
  return [
    form.text('name', {
      label: words.say('page.telescope-name'),
      hint: words.say('page.telescope-name-hint'),
      isWide: true,
    }),
    form.choice('mount', { label: words.say('page.mount'), fallback: 'altaz-driven', isWide: true }, mounts),
  ]
}

function tubeRow(words: Words, state: FormState, index: number): FormRow {
  const form = formFields(words, state)
  const name = (part: string) => `tubes.${index}.${part}`
  const label = (part: string) => ({ label: words.say(`page.tube-${part}`) })
  const hinted = (part: string) => ({ ...label(part), hint: words.say(`page.tube-${part}-hint`) })
  const designs = options(words, 'design', ['refractor', 'reflector', 'catadioptric'])
  return {
    title: words.say(index === 0 ? 'page.tube-first' : 'page.tube-second'),
    fields: [
      form.number(name('apertureMm'), label('aperture')),
      form.number(name('focalLengthMm'), label('focal')),
      form.choice(name('design'), { ...label('design'), fallback: 'refractor' }, designs),
      form.text(name('name'), hinted('name')),
      form.number(name('obstruction'), hinted('obstruction')),
      form.number(name('transmission'), hinted('transmission')),
      form.tick(name('hasDiagonal'), label('diagonal')),
    ],
  }
}

function eyepieceRow(words: Words, state: FormState, index: number): FormRow {
  const form = formFields(words, state)
  const name = (part: string) => `eyepieces.${index}.${part}`
  return {
    title: words.say('page.eyepiece-row', { row: index + 1 }),
    fields: [
      form.number(name('focalLengthMm'), { label: words.say('page.eyepiece-focal') }),
      form.number(name('apparentFieldDeg'), { label: words.say('page.eyepiece-field') }),
      form.text(name('name'), { label: words.say('page.eyepiece-name') }),
      form.number(name('fieldStopMm'), { label: words.say('page.eyepiece-stop') }),
    ],
  }
}

function factorRow(words: Words, state: FormState, index: number): FormRow {
  const form = formFields(words, state)
  return {
    title: words.say('page.factor-row', { row: index + 1 }),
    fields: [
      form.number(`factors.${index}.factor`, {
        label: words.say('page.factor'),
        hint: words.say('page.factor-hint'),
      }),
      form.text(`factors.${index}.name`, {
        label: words.say('page.factor-name'),
        hint: words.say('page.factor-name-hint'),
      }),
    ],
  }
}

function heightFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const reaches = options(words, 'reach', ['side', 'folded', 'no'])
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [
    form.number('axisLowCm', ask('page.axis-low')),
    form.number('axisHighCm', ask('page.axis-high')),
    form.choice('chairReach', { label: words.say('page.chair'), fallback: 'no', isWide: true }, reaches),
  ]
}

function limitFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [form.number('floorDeg', ask('page.floor')), form.number('ceilingDeg', ask('page.ceiling'))]
}
