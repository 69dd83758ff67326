import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, isBegun, type Option } from './form.ts'

export interface FormRow {
  readonly title: string
  readonly fields: readonly Field[]
  /** Of a row that most leave out and that is folded: whether it stands open. */
  readonly fold?: { readonly isOpen: boolean }
}

/** The fields of rows as a list of problems calls them: each with its row, since every row has fields of the same names. */
export const fieldsInRows = (words: Words, rows: readonly FormRow[]): readonly Field[] =>
  rows.flatMap(({ title, fields }) =>
    fields.map((field) => ({ ...field, label: words.say('page.row-field', { row: title, field: field.label }) })),
  )

/** The state of a form with what is wrong with a whole group told beside its first field. */
export const besideFirst = (state: FormState, firsts: Readonly<Record<string, string>>): FormState => ({
  ...state,
  problems: state.problems.map((problem) => ({ ...problem, field: firsts[problem.field] ?? problem.field })),
})

/** Choices of one group of words. */
export const optionsOf = (words: Words, group: string, values: readonly string[]): Omit<Option, 'isChosen'>[] =>
  values.map((value) => ({ value, text: words.say(`${group}.${value}`) }))

/** The fields of one tube; the second is folded until it is begun. */
export function tubeRow(words: Words, state: FormState, index: number): FormRow {
  const form = formFields(words, state)
  const name = (part: string) => `tubes.${index}.${part}`
  const label = (part: string) => ({ label: words.say(`page.tube-${part}`) })
  const hinted = (part: string) => ({ ...label(part), hint: words.say(`page.tube-${part}-hint`) })
  const designs = optionsOf(words, 'design', ['refractor', 'reflector', 'catadioptric'])
  const fields = [
    form.number(name('apertureMm'), hinted('aperture')),
    form.number(name('focalLengthMm'), hinted('focal')),
    form.choice(name('design'), { ...label('design'), fallback: 'refractor' }, designs),
    form.text(name('name'), hinted('name')),
    form.number(name('obstruction'), hinted('obstruction')),
    form.number(name('transmission'), hinted('transmission')),
    form.tick(name('hasDiagonal'), label('diagonal')),
  ]
  return index === 0
    ? { title: words.say('page.tube-first'), fields }
    : { title: words.say('page.tube-second'), fields, fold: { isOpen: isBegun(fields) } }
}

/** The fields of one eyepiece. */
export function eyepieceRow(words: Words, state: FormState, index: number): FormRow {
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

/** The fields of one Barlow or reducer. */
export function factorRow(words: Words, state: FormState, index: number): FormRow {
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
