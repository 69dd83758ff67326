import type { Problem } from '../../errors.ts'
import { isKindField, kindsAskedFor, OWN_KINDS } from '../../tours/own-kinds.ts'
import type { Words } from '../../words/words.ts'
import { type Field, formFields, type ProblemList } from './form.ts'
import { type LineProblem, OWN_COLUMNS } from './own-columns.ts'
import { ownExample } from './own-example.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface OwnImportPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly problems: ProblemList | null
  readonly action: string
  readonly list: Field
  readonly fileLabel: string
  readonly save: string
  readonly columnsLabel: string
  readonly columnsNote: string
  readonly columns: readonly { readonly name: string; readonly means: string }[]
  readonly kindsLabel: string
  readonly kinds: readonly { readonly name: string; readonly means: string }[]
  readonly exampleLabel: string
  readonly exampleNote: string
  readonly example: string
  readonly backHref: string
  readonly backText: string
}

interface OwnImportSubject {
  readonly list: string
  readonly problems: readonly LineProblem[]
}

const MOST_SHOWN = 200

/** Where a host pastes a list of things, with what its columns mean and everything that is wrong with it. */
export function ownImportPage(viewer: Viewer, { list, problems }: OwnImportSubject): OwnImportPage {
  const { words } = viewer
  const title = words.say('own.import')
  const isWrong = problems.length > 0
  return {
    sheet: daySheet(viewer, title, 'objects', ['page.js', 'list-file.js']),
    title,
    intro: words.say('own.import-intro'),
    problems: isWrong ? lineList(words, problems) : null,
    action: '/extras/import',
    list: formFields(words, { values: { list }, problems: ofList(words, problems) }).text('list', {
      label: words.say('own.list'),
      hint: words.say('own.list-hint'),
    }),
    fileLabel: words.say('own.file'),
    save: words.say('own.import-save'),
    columnsLabel: words.say('own.columns'),
    columnsNote: words.say('own.columns-note'),
    columns: Object.entries(OWN_COLUMNS).map(([name, field]) => ({ name, means: columnText(words, name, field) })),
    kindsLabel: words.say('own.kinds'),
    kinds: OWN_KINDS.map((kind) => ({ name: kind, means: words.say(`kind.${kind}`) })),
    exampleLabel: words.say('own.example'),
    exampleNote: words.say('own.example-note'),
    example: ownExample(words),
    backHref: '/extras',
    backText: words.say('own.title'),
  }
}

/** One mistake is told at the list, too; of several it is told there how many they are. */
function ofList(words: Words, problems: readonly LineProblem[]): readonly Problem[] {
  const [first] = problems
  if (first === undefined) return []
  if (problems.length > 1) return [{ field: 'list', key: 'own.list-wrong', values: { count: problems.length } }]
  return [{ field: 'list', ...inLine(words, first) }]
}

/** A mistake with its place. */
function inLine(words: Words, { line, column, key, values }: LineProblem): Pick<Problem, 'key' | 'values'> {
  const message = words.say(key, values)
  return { key: column === '' ? 'own.line' : 'own.line-column', values: { line, column, message } }
}

function lineList(words: Words, problems: readonly LineProblem[]): ProblemList {
  const shown = problems.slice(0, MOST_SHOWN).map((problem) => {
    const { key, values } = inLine(words, problem)
    return words.say(key, values)
  })
  const left = problems.length - shown.length
  const more = left > 0 ? [words.say('own.lines-more', { count: left })] : []
  return {
    title: words.say('own.list-refused', { count: problems.length }),
    items: [...shown, ...more].map((text) => ({ href: '#field-list', text })),
  }
}

function columnText(words: Words, name: string, field: string): string {
  const means = words.say(`own.column-${name}`)
  if (!isKindField(field)) return means
  const kinds = kindsAskedFor(field)
  const others = OWN_KINDS.filter((kind) => !kinds.includes(kind))
  return others.length < 3
    ? words.say('own.column-not', { means, kinds: others.join(', ') })
    : words.say('own.column-for', { means, kinds: kinds.join(', ') })
}
