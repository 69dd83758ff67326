import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface ProblemPage {
  readonly sheet: Sheet
  readonly status: string
  readonly title: string
  readonly message: string
  readonly problems: readonly string[]
  readonly homeText: string
}

interface Told {
  readonly status: number
  readonly message: string
  readonly problems: readonly { readonly field: string; readonly message: string }[]
}

/** The page of something that could not be done: what happened, field by field, and a way on. */
export function problemPage(viewer: Viewer, { status, message, problems }: Told): ProblemPage {
  const title = viewer.words.say(status === 404 ? 'page.problem-lost' : 'page.problem')
  return {
    sheet: daySheet(viewer, title, null),
    status: String(status),
    title,
    message,
    problems: problems.map((problem) => `${problem.field}: ${problem.message}`),
    homeText: viewer.words.say('page.problem-home'),
  }
}
