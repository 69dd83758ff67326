import type { Problem } from '../../errors.ts'
import type { Words } from '../../words/words.ts'

/** What was typed into a form, by the field's name, and what is wrong with it. */
export interface FormState {
  readonly values: Readonly<Record<string, string>>
  readonly problems: readonly Problem[]
}

export interface Option {
  readonly value: string
  readonly text: string
  readonly isChosen: boolean
}

/** One field with its label, its value as typed, and all its own problems in words. */
export interface Field {
  readonly id: string
  readonly name: string
  readonly label: string
  readonly hint: string | null
  readonly problem: string | null
  readonly describedBy: string | null
  readonly isInvalid: boolean
  readonly value: string
  readonly type: 'text' | 'date'
  readonly inputMode: 'text' | 'decimal' | 'numeric'
  readonly options: readonly Option[]
  readonly isSelect: boolean
  readonly isCheckbox: boolean
  readonly isChecked: boolean
  readonly isWide: boolean
}

/** True where something was chosen or typed in one of them, or is wrong: a part that may be left out stands open then. */
export const isBegun = (fields: readonly Field[]): boolean =>
  fields.some(
    ({ isInvalid, isCheckbox, isChecked, options, value }) =>
      isInvalid || (isCheckbox ? isChecked : value !== (options[0]?.value ?? '')),
  )

interface Ask {
  readonly label: string
  readonly hint?: string
  readonly fallback?: string
  readonly type?: Field['type']
  readonly inputMode?: Field['inputMode']
  readonly isWide?: boolean
}

/** Makes the fields of one form from what was typed so far. */
export function formFields(words: Words, { values, problems }: FormState) {
  function field(name: string, ask: Ask): Field {
    const id = `field-${name.replaceAll('.', '-')}`
    const wrong = problems.filter((found) => found.field === name)
    const isInvalid = wrong.length > 0
    const described = [...(ask.hint ? [`${id}-hint`] : []), ...(isInvalid ? [`${id}-problem`] : [])]
    return {
      id,
      name,
      label: ask.label,
      hint: ask.hint ?? null,
      problem: isInvalid ? wrong.map(({ key, values: told }) => words.say(key, told)).join(' ') : null,
      describedBy: described.length > 0 ? described.join(' ') : null,
      isInvalid,
      value: values[name] ?? ask.fallback ?? '',
      type: ask.type ?? 'text',
      inputMode: ask.inputMode ?? 'text',
      options: [],
      isSelect: false,
      isCheckbox: false,
      isChecked: false,
      isWide: ask.isWide ?? false,
    }
  }

  return {
    text: field,
    number(name: string, ask: Ask): Field {
      const made = field(name, { ...ask, inputMode: 'decimal' })
      return { ...made, value: words.figures(made.value) }
    },
    choice(name: string, ask: Ask, options: readonly Omit<Option, 'isChosen'>[]): Field {
      const made = field(name, ask)
      return {
        ...made,
        isSelect: true,
        options: options.map((option) => ({ ...option, isChosen: option.value === made.value })),
      }
    },
    tick: (name: string, ask: Ask): Field => ({
      ...field(name, ask),
      value: 'true',
      isCheckbox: true,
      isChecked: values[name] === 'true',
    }),
  }
}

/** The problems of a form as one list at its top, each a link to its field; a problem without a field links to the form. */
export interface ProblemList {
  readonly title: string
  readonly items: readonly { readonly href: string; readonly text: string }[]
}

/** The list above a form in the order of its fields, or null when nothing is wrong; `shown` are all fields that the form has. */
export function problemList(words: Words, { problems }: FormState, shown: readonly Field[]): ProblemList | null {
  if (problems.length === 0) return null
  const placeOf = ({ field }: Problem) => shown.findIndex(({ name }) => name === field)
  const inOrder = [...problems].sort((one, other) => placeOf(one) - placeOf(other))
  return {
    title: words.say('page.form-problems', { count: problems.length }),
    items: inOrder.map(({ field, key, values }) => {
      const found = shown.find(({ name }) => name === field)
      const message = words.say(key, values)
      return {
        href: `#${found?.id ?? 'form'}`,
        text: found ? words.say('page.form-problem', { field: found.label, message }) : message,
      }
    }),
  }
}
