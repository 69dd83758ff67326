import type { Finder } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'

export const FINDER_KINDS = ['red-dot', 'straight', 'right-angle', 'none'] as const

const FINDER = 'finder'
/** The name of a field of the finder. */
export const finderName = (part: keyof Finder): string => `${FINDER}.${part}`

/** What is asked of the finder of a telescope. */
export function finderFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const kinds = FINDER_KINDS.map((kind) => ({ value: kind, text: words.say(`kit.finder-${kind}`) }))
  return [
    form.choice(finderName('kind'), { label: words.say('kit.finder-kind'), isWide: true }, [
      { value: '', text: words.say('kit.finder-unknown') },
      ...kinds,
    ]),
    form.number(finderName('powerX'), {
      label: words.say('kit.finder-power'),
      hint: words.say('kit.finder-power-hint'),
    }),
    form.number(finderName('fieldDeg'), {
      label: words.say('kit.finder-field'),
      hint: words.say('kit.finder-field-hint'),
    }),
  ]
}

/** What is asked of its years in the kit. */
export function keptFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  return [
    form.text('inKitSince', {
      label: words.say('kit.in-since'),
      hint: words.say('kit.in-since-hint'),
      inputMode: 'numeric',
    }),
    form.text('note', { label: words.say('kit.note'), hint: words.say('kit.note-hint'), isWide: true }),
  ]
}
