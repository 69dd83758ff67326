import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface FormRow {
  readonly title: string
  readonly fields: readonly Field[]
}

export interface TelescopeFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly problems: ProblemList | null
  readonly fields: readonly Field[]
  readonly tubesLabel: string
  readonly tubesHint: string
  readonly tubes: readonly FormRow[]
  readonly eyepiecesLabel: string
  readonly eyepiecesHint: string
  readonly eyepieces: readonly FormRow[]
  readonly moreRows: { readonly name: string; readonly count: string; readonly text: string } | null
  readonly heightsLabel: string
  readonly heights: readonly Field[]
  readonly moreLabel: string
  readonly isMoreOpen: boolean
  readonly more: readonly Field[]
  readonly save: string
}

const TUBES = 2
const MOST_EYEPIECES = 12

/** The form of a new telescope: its mount, one or two tubes, `eyepieceRows` eyepieces, and how high it stands. */
export function telescopeFormPage(viewer: Viewer, state: FormState, eyepieceRows: number): TelescopeFormPage {
  const { words } = viewer
  const fields = mountFields(words, state)
  const tubes = Array.from({ length: TUBES }, (_, index) => tubeRow(words, state, index))
  const eyepieces = Array.from({ length: eyepieceRows }, (_, index) => eyepieceRow(words, state, index))
  const heights = heightFields(words, state)
  const more = limitFields(words, state)
  const shown = [...fields, ...[...tubes, ...eyepieces].flatMap((row) => row.fields), ...heights, ...more]
  return {
    sheet: daySheet(viewer, words.say('page.new-telescope'), 'telescopes'),
    ...labels(words),
    problems: problemList(words, state, shown),
    fields,
    tubes,
    eyepieces,
    moreRows:
      eyepieceRows < MOST_EYEPIECES
        ? { name: 'eyepieceRows', count: String(eyepieceRows), text: words.say('page.more-eyepieces') }
        : null,
    heights,
    more,
    isMoreOpen: more.some(({ isInvalid }) => isInvalid),
  }
}

const labels = (words: Words) => ({
  title: words.say('page.new-telescope'),
  intro: words.say('page.new-telescope-intro'),
  tubesLabel: words.say('page.tubes'),
  tubesHint: words.say('page.tubes-hint'),
  eyepiecesLabel: words.say('page.eyepieces'),
  eyepiecesHint: words.say('page.eyepieces-hint'),
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
  const designs = options(words, 'design', ['refractor', 'reflector', 'catadioptric'])
  return {
    title: words.say(index === 0 ? 'page.tube-first' : 'page.tube-second'),
    fields: [
      form.number(name('apertureMm'), label('aperture')),
      form.number(name('focalLengthMm'), label('focal')),
      form.choice(name('design'), { ...label('design'), fallback: 'refractor' }, designs),
      form.text(name('name'), { ...label('name'), hint: words.say('page.tube-name-hint') }),
      form.number(name('obstruction'), { ...label('obstruction'), hint: words.say('page.tube-obstruction-hint') }),
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
    ],
  }
}

function heightFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const reaches = options(words, 'reach', ['side', 'folded', 'no'])
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [
    form.number('axisLowCm', { ...ask('page.axis-low'), fallback: '90' }),
    form.number('axisHighCm', { ...ask('page.axis-high'), fallback: '130' }),
    form.choice('chairReach', { label: words.say('page.chair'), fallback: 'no', isWide: true }, reaches),
  ]
}

function limitFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [
    form.number('floorDeg', { ...ask('page.floor'), fallback: '10' }),
    form.number('ceilingDeg', { ...ask('page.ceiling'), fallback: '80' }),
  ]
}
