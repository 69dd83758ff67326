import { byLamp, daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface ProblemPage {
  readonly sheet: Sheet
  readonly status: string
  readonly title: string
  readonly message: string
  readonly problems: readonly string[]
  readonly wayOn: { readonly href: string; readonly text: string }
}

interface Told {
  readonly status: number
  readonly key: string
  readonly message: string
  readonly problems: readonly { readonly field: string; readonly message: string }[]
}

/** The page of something that could not be done: what happened, field by field, and a way on; by the lamp, so that eyes stay used to the dark. */
export function problemPage(
  viewer: Viewer,
  { status, key, message, problems }: Told,
  look: 'day' | 'lamp' = 'day',
): ProblemPage {
  const title = viewer.words.say(status === 404 ? 'page.problem-lost' : 'page.problem')
  const sheet = daySheet(viewer, title, null)
  return {
    sheet: look === 'lamp' ? byLamp(sheet) : sheet,
    status: String(status),
    title,
    message,
    problems: problems.map(({ field, message: said }) =>
      field === '' ? said : viewer.words.say('page.problem-at', { field, message: said }),
    ),
    wayOn:
      key === 'fault.join-first'
        ? { href: '/join', text: viewer.words.say('page.problem-join') }
        : { href: '/', text: viewer.words.say('page.problem-home') },
  }
}
