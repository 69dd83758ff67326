import type { Problem } from '../../errors.ts'
import { type ChecklistItem, MOST_ITEMS } from '../../tours/checklist.ts'
import { isShippedItem, SHIPPED_ITEMS } from '../../tours/checklist-items.ts'
import { type FormValues, numberOf, rowCount } from './form-values.ts'

/** Below the list. */
const BLANK_ROWS = 2
const MORE_ROWS = 5

/** A list as its form shows it. */
export const checklistValues = (items: readonly ChecklistItem[]): FormValues =>
  Object.fromEntries(
    items.flatMap(({ id, group, text, owner, from, offsetMin }, i) => [
      [`items.${i}.id`, id],
      [`items.${i}.group`, group],
      [`items.${i}.text`, text],
      [`items.${i}.owner.role`, owner.role],
      [`items.${i}.owner.name`, owner.name],
      [`items.${i}.from`, `${from}-${offsetMin < 0 ? 'before' : 'after'}`],
      [`items.${i}.offsetMin`, String(Math.abs(offsetMin))],
    ]),
  )

/** How many rows the form of a list has. */
export const rowsFor = (items: readonly ChecklistItem[]): number => Math.min(MOST_ITEMS, items.length + BLANK_ROWS)

/** How many rows a posted form has, and how many when more are asked for. */
export const postedRows = (values: FormValues): number => rowCount(values, 'rows', 0, MOST_ITEMS)
export const moreRows = (values: FormValues): number => Math.min(MOST_ITEMS, postedRows(values) + MORE_ROWS)

/** The items of a posted form, and the row of the form that each one comes from. */
interface TypedList {
  readonly items: readonly object[]
  readonly rows: readonly number[]
}

/** What stays of a posted form: without the rows that are dropped, and without blank ones. */
export function typedList(values: FormValues): TypedList {
  const numbers = Array.from({ length: postedRows(values) }, (_, row) => row)
  const rows = numbers.filter((row) => {
    const [id, text] = ['id', 'text'].map((part) => (values[`items.${row}.${part}`] ?? '').trim())
    return values[`items.${row}.drop`] !== 'true' && (id !== '' || text !== '')
  })
  return { rows, items: rows.map((row) => itemOf(values, row)) }
}

/** A problem of the list at the field of the row that was typed. */
export const atTypedRow = ({ rows }: TypedList, { field, ...problem }: Problem): Problem => {
  const [, index = '', part = ''] = /^items\.(\d+)\.(.+)$/.exec(field) ?? []
  const isMinutes = part === 'offsetMin' && problem.key === 'problem.range'
  return {
    ...problem,
    field: index === '' ? field : `items.${rows[Number(index)]}.${part}`,
    ...(isMinutes && { values: { ...problem.values, minimum: 0 } }),
  }
}

function itemOf(values: FormValues, row: number): object {
  const typed = (part: string): string => (values[`items.${row}.${part}`] ?? '').trim()
  const id = typed('id')
  const [from = '', side = ''] = typed('from').split('-')
  const minutes = numberOf(typed('offsetMin') === '' ? '0' : typed('offsetMin'))
  const role = typed('owner.role')
  return {
    ...(id === '' ? {} : { id }),
    group: SHIPPED_ITEMS.find((item) => item.id === id)?.group ?? typed('group'),
    text: isShippedItem(id) ? '' : typed('text'),
    owner: { role, name: role === 'named' ? typed('owner.name') : '' },
    from,
    offsetMin: offsetOf(minutes, side),
  }
}

/** Minutes before are negative when kept, and typed without a sign: one that is typed might mean either side, so it is refused. */
const offsetOf = (minutes: number, side: string): number => {
  if (minutes < 0) return Number.MIN_SAFE_INTEGER
  return side === 'before' && minutes !== 0 ? -minutes : minutes
}
