import type { Desk } from '../../desk/desk.ts'
import type { Problem } from '../../errors.ts'
import { OWN_KINDS } from '../../tours/own-kinds.ts'
import type { OwnThing } from '../../tours/own-object.ts'
import type { Words } from '../../words/words.ts'
import { columnOf, type LineProblem } from '../pages/own-columns.ts'
import { WHY_BLANK } from '../pages/own-why.ts'
import { type CsvRow, readOwnCsv } from './own-csv.ts'
import { inOwnWords, ownObjectDraftOf } from './own-object-draft.ts'

/** The appeal of a row that names none. */
const USUAL_APPEAL = '0.5'

type Imported = { readonly added: readonly OwnThing[] } | { readonly problems: readonly LineProblem[] }

/** Puts all things of a list with a header on the host's list; when anything in it is wrong none of them, and everything that is. */
export function importOwn({ own, nights }: Pick<Desk, 'own' | 'nights'>, words: Words, text: string): Imported {
  const { rows, problems: ofText } = readOwnCsv(text)
  const reading = { words, nights: nights.all() }
  const whole = rows.map((row) => ({ ...row, values: withUsual(row.values) }))
  const drafts = whole.map(({ values }) => ownObjectDraftOf(values, reading))
  const ofRows = own.problems(drafts).flatMap((problem) => lineProblem(problem, whole))
  const problems = [...ofText, ...ofRows].sort((a, b) => a.line - b.line)
  return problems.length > 0 ? { problems } : { added: own.addAll(drafts) }
}

const withUsual = (values: CsvRow['values']): CsvRow['values'] => ({
  ...values,
  appeal: values.appeal || USUAL_APPEAL,
  appealReason: values.appealReason || WHY_BLANK,
})

/** The problem of a draft, `2.raDeg`, as one of a line and its column. */
function lineProblem({ field: path, key, values }: Problem, rows: readonly CsvRow[]): LineProblem[] {
  const [place = '', field = ''] = path.split('.')
  const row = rows[Number(place)]
  if (row === undefined) return []
  if (field === 'kind' && key === 'problem.choice')
    return [
      { line: row.line, column: columnOf(field), key: 'problem.own-kind', values: { kinds: OWN_KINDS.join(', ') } },
    ]
  return inOwnWords([{ field, key, ...(values && { values }) }], row.values).map((said) => ({
    line: row.line,
    column: columnOf(field),
    key: said.key,
    ...(said.values && { values: said.values }),
  }))
}
