import { EDIT_CLOCKS, EDIT_COUNTS, EDIT_WORDS, type ReportEdits, USUAL_SET_UP_MIN } from '../../tours/report-edits.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { type ReportGround, reportNumbers, spanText } from './report-words.ts'

/** Where the host writes beside what is reckoned. */
export interface ReportForm {
  readonly action: string
  readonly label: string
  readonly hint: string
  readonly fields: readonly Field[]
  readonly areas: readonly Field[]
  readonly save: string
}

export const reportHref = ({ id }: { readonly id: string }): string => `/nights/${id}/report`

/** The fields as they were typed, each number with what is reckoned beside it. */
export function reportForm(ground: ReportGround, state: FormState): ReportForm {
  const { words, report } = ground
  const { text, number } = formFields(words, state)
  const label = (name: string): string => words.say(`report.edit-${name}`)
  return {
    action: reportHref(report.night),
    label: words.say('report.edit'),
    hint: words.say('report.edit-hint'),
    fields: [
      ...EDIT_CLOCKS.map((name) =>
        text(name, {
          label: label(name),
          hint: words.say('report.reckoned', { value: spanText(ground, report.facts.ran) }),
        }),
      ),
      ...EDIT_COUNTS.map((name) => number(name, { label: label(name), hint: countHint(ground, name) })),
    ],
    areas: EDIT_WORDS.map((name) => text(name, { label: label(name) })),
    save: words.say('report.save'),
  }
}

function countHint({ words, report }: ReportGround, name: (typeof EDIT_COUNTS)[number]): string {
  if (name === 'setUpMin') return words.say('report.set-up-hint', { minutes: USUAL_SET_UP_MIN })
  if (name === 'extraHelpers') return words.say('report.extra-hint')
  const reckoned = reportNumbers(report).find(({ key }) => key === name)?.reckoned ?? null
  return reckoned === null
    ? words.say('report.not-counted')
    : words.say('report.reckoned', { value: words.number(reckoned) })
}

/** What is wrong, as a list above the form; null when nothing is. */
export const reportProblems = (
  { words }: Pick<ReportGround, 'words'>,
  state: FormState,
  { fields, areas }: ReportForm,
): ProblemList | null => problemList(words, state, [...fields, ...areas])

/** The values of the form for what is kept. */
export const editValues = (edits: ReportEdits): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(edits).map(([name, value]) => [name, String(value)]))
