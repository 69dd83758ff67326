import type { Brought } from '../../desk/carry.ts'
import type { Problem } from '../../errors.ts'
import type { Words } from '../../words/words.ts'
import { type Field, formFields, type ProblemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface CarryPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  /** What the file changed, a sentence each; [] before any. */
  readonly done: readonly string[]
  readonly night: { readonly href: string; readonly text: string } | null
  readonly problems: ProblemList | null
  readonly action: string
  readonly file: Field
  readonly fileLabel: string
  readonly take: Field
  readonly save: string
  readonly notIn: string
  readonly backHref: string
  readonly backText: string
}

export type CarriedKind = 'night' | 'things'

interface CarrySubject {
  readonly kind: CarriedKind
  readonly text: string
  readonly take: boolean
  readonly problems: readonly Problem[]
  readonly brought: Brought | null
}

export const CARRY_HREF = { night: '/nights/import', things: '/extras/file/import' } as const
const BACK = { night: ['/nights', 'page.nights'], things: ['/extras', 'own.title'] } as const
const PLACE = { night: 'nights', things: 'objects' } as const
const MOST_SHOWN = 50

/** Where a host brings in a file of another laptop, and what it has changed here. */
export function carryPage(viewer: Viewer, { kind, text, take, problems, brought }: CarrySubject): CarryPage {
  const { words } = viewer
  const title = words.say(`carry.${kind}-title`)
  const wrong = problems.length > 0 ? [{ field: 'file', key: 'carry.refused' }, ...ofWhole(problems)] : []
  const fields = formFields(words, { values: { file: text, take: String(take) }, problems: wrong })
  const [backHref, backText] = BACK[kind]
  return {
    sheet: daySheet(viewer, title, PLACE[kind], ['page.js', 'list-file.js']),
    title,
    intro: words.say(`carry.${kind}-intro`),
    done: brought ? doneLines(words, brought, take) : [],
    night: brought?.nightId ? { href: `/nights/${brought.nightId}`, text: words.say('carry.to-night') } : null,
    problems: problems.length > 0 ? placeList(words, problems) : null,
    action: CARRY_HREF[kind],
    file: fields.text('file', { label: words.say('carry.file'), hint: words.say('carry.file-hint') }),
    fileLabel: words.say('carry.choose'),
    take: fields.tick('take', { label: words.say('carry.take') }),
    save: words.say('carry.save'),
    notIn: words.say(`carry.${kind}-not-in`),
    backHref,
    backText: words.say(backText),
  }
}

function doneLines(words: Words, { isNewNight, marks, programmes, parts, differs }: Brought, take: boolean): string[] {
  const counts = { marks, programmes, parts }
  const came = Object.entries(counts).flatMap(([name, count]) =>
    count > 0 ? [words.say(`carry.count-${name}`, { count })] : [],
  )
  const list = words.list(differs.map((name) => words.say(`carry.part-${name}`)))
  return [
    ...(isNewNight ? [words.say('carry.new-night')] : []),
    ...(came.length > 0 ? [words.say('carry.came', { list: words.list(came) })] : []),
    ...(differs.length > 0 ? [words.say(take ? 'carry.taken' : 'carry.differs', { list })] : []),
    ...(!isNewNight && came.length === 0 && differs.length === 0 ? [words.say('carry.nothing-new')] : []),
  ]
}

/** What is wrong with the file as a whole, at its field. */
const ofWhole = (problems: readonly Problem[]): readonly Problem[] =>
  problems.flatMap((problem) => (problem.field === '' ? [{ ...problem, field: 'file' }] : []))

function placeList(words: Words, problems: readonly Problem[]): ProblemList {
  const shown = problems.slice(0, MOST_SHOWN).map(({ field, key, values }) => {
    const message = words.say(key, values)
    return field === ''
      ? words.say('page.form-problem', { field: words.say('carry.file'), message })
      : words.say('carry.place', { place: field, message })
  })
  const left = problems.length - shown.length
  const more = left > 0 ? [words.say('carry.more', { count: left })] : []
  return {
    title: words.say('carry.refused'),
    items: [...shown, ...more].map((text) => ({ href: '#field-file', text })),
  }
}
