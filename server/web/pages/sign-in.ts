import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface SignInPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly pin: Field
  readonly problems: ProblemList | null
  readonly back: string
  readonly button: string
}

/** The host's way in: one PIN, and `back`, the path to go to then. */
export function signInPage(viewer: Viewer, state: FormState, back: string): SignInPage {
  const { words } = viewer
  const pin = formFields(words, state).text('pin', {
    label: words.say('page.pin'),
    hint: words.say('page.pin-hint'),
    inputMode: 'numeric',
  })
  return {
    sheet: daySheet(viewer, words.say('page.sign-in'), 'sign-in'),
    title: words.say('page.sign-in'),
    intro: words.say('page.sign-in-intro'),
    pin: { ...pin, value: '' },
    problems: problemList(words, state, [pin]),
    back,
    button: words.say('page.sign-in-button'),
  }
}
