import type { Checklist } from '../../desk/notes.ts'
import { ANCHORS, ITEM_GROUPS, type ItemGroup, OWNER_ROLES } from '../../tours/checklist.ts'
import { isShippedItem, SHIPPED_ITEMS } from '../../tours/checklist-items.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { hoursText } from './date-text.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import { checklistsHref } from './notes-href.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { fieldsInRows } from './telescope-form-rows.ts'

interface ItemRow {
  /** Of which part of the list it is the first row; null for the others. */
  readonly heading: string | null
  readonly title: string
  /** Who and when; '' for a blank row. */
  readonly says: string
  /** True where something has to be put right, or was begun. */
  readonly isOpen: boolean
  /** Which item the row is; '' for a blank one. */
  readonly hidden: { readonly name: string; readonly value: string }
  readonly fields: readonly Field[]
}

/** A form of one button. */
interface Ask {
  readonly action: string
  readonly text: string
  readonly note: string
}

export interface ChecklistsForm {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly intro: string
  readonly local: string
  readonly problems: ProblemList | null
  /** The list of an earlier night, to take over; null where there is none, or the night has its own. */
  readonly takeOver: Ask | null
  /** Back to the list that ships; null while it holds. */
  readonly forget: Ask | null
  readonly action: string
  readonly rows: readonly ItemRow[]
  readonly count: { readonly name: string; readonly value: string }
  readonly moreText: string
  readonly save: string
  readonly back: { readonly href: string; readonly text: string }
}

export interface ChecklistsFormSubject {
  readonly night: Night
  readonly hasTour: boolean
  readonly checklist: Checklist
  readonly rowCount: number
  readonly state: FormState
}

/** Every item of a night's list with its owner and time, to be changed, dropped or added to. */
export function checklistsForm(viewer: Viewer, subject: ChecklistsFormSubject): ChecklistsForm {
  const { words } = viewer
  const { night, hasTour, rowCount, state } = subject
  const title = words.say('checklist.change')
  const rows = Array.from({ length: rowCount }, (_, i) => itemRow(words, state, i))
  return {
    sheet: nightSheet(viewer, words.say('checklist.change-of', { title: night.title }), { night, hasTour, here: null }),
    nightTitle: night.title,
    title,
    intro: words.say('checklist.intro'),
    local: words.say('set-up.local'),
    problems: problemList(words, state, fieldsInRows(words, rows.map(withoutEnd))),
    ...asks(words, subject),
    action: checklistsHref(night),
    rows,
    count: { name: 'rows', value: String(rowCount) },
    moreText: words.say('checklist.more'),
    save: words.say('checklist.save'),
    back: { href: checklistsHref(night), text: words.say('checklist.back') },
  }
}

function asks(words: Words, { night, checklist }: ChecklistsFormSubject): Pick<ChecklistsForm, 'takeOver' | 'forget'> {
  const { earlier, isOwn } = checklist
  return {
    takeOver: earlier && {
      action: `${checklistsHref(night)}/take-over`,
      text: words.say('checklist.take-over'),
      note: words.say('checklist.take-over-note', { title: earlier.title, date: words.date(earlier.date) }),
    },
    forget: isOwn
      ? {
          action: `${checklistsHref(night)}/forget`,
          text: words.say('checklist.forget'),
          note: words.say('checklist.forget-note'),
        }
      : null,
  }
}

/** A row that goes on behind its title, which may be a whole sentence. */
const withoutEnd = (row: ItemRow): ItemRow => ({ ...row, title: row.title.replace(/[.!]$/, '') })

const SIDES = ['before', 'after'] as const

function itemRow(words: Words, state: FormState, at: number): ItemRow {
  const { text, number, choice, tick } = formFields(words, state)
  const name = (part: string): string => `items.${at}.${part}`
  const label = (part: string) => ({ label: words.say(`checklist.field-${part}`) })
  const id = state.values[name('id')] ?? ''
  const isShipped = isShippedItem(id)
  const whens = ANCHORS.flatMap((anchor) =>
    SIDES.map((side) => ({ value: `${anchor}-${side}`, text: words.say(`checklist.when-${anchor}-${side}`) })),
  )
  const role = choice(
    name('owner.role'),
    label('role'),
    OWNER_ROLES.map((value) => ({ value, text: words.say(`checklist.owner-${value}`) })),
  )
  const when = choice(name('from'), label('when'), whens)
  const group = choice(
    name('group'),
    label('group'),
    ITEM_GROUPS.map((value) => ({ value, text: words.say(`checklist.group-${value}`) })),
  )
  const fields = [
    ...(isShipped ? [] : [text(name('text'), { ...label('text'), isWide: true })]),
    role,
    text(name('owner.name'), label('name')),
    number(name('offsetMin'), label('minutes')),
    when,
    ...(isShipped ? [] : [group]),
    ...(id === '' ? [] : [tick(name('drop'), label('drop'))]),
  ]
  return {
    heading: headingAt(words, state, at),
    title: rowTitle(words, state, at, id),
    says: id === '' ? '' : saysOf(words, state, at, [role, when]),
    isOpen: fields.some(({ isInvalid }) => isInvalid) || (id === '' && (state.values[name('text')] ?? '') !== ''),
    hidden: { name: name('id'), value: id },
    fields,
  }
}

const chosen = ({ options }: Field) => options.find(({ isChosen }) => isChosen)

/** `Host, 30 min before opening` or `Host, at opening`: who, by name where there is one, and when. */
function saysOf(words: Words, { values }: FormState, at: number, [role, when]: readonly [Field, Field]): string {
  const minutes = Number(values[`items.${at}.offsetMin`]) || 0
  const name = role.value === 'named' ? (values[`items.${at}.owner.name`] ?? '') : ''
  const anchor = ANCHORS.find((each) => chosen(when)?.value.startsWith(each))
  const who = name || (chosen(role)?.text ?? '')
  if (anchor && minutes === 0)
    return words.say('checklist.row-says-at', { who, when: words.say(`checklist.when-${anchor}-at`) })
  return words.say('checklist.row-says', { who, minutes: hoursText(words, minutes), when: chosen(when)?.text ?? '' })
}

/** The part of the list that a row belongs to; null for a blank one. */
function groupAt({ values }: FormState, at: number): ItemGroup | null {
  const id = values[`items.${at}.id`]
  if (!id) return null
  const group = SHIPPED_ITEMS.find((item) => item.id === id)?.group ?? values[`items.${at}.group`]
  return ITEM_GROUPS.find((each) => each === group) ?? null
}

function headingAt(words: Words, state: FormState, at: number): string | null {
  const group = groupAt(state, at)
  return group === null || group === groupAt(state, at - 1) ? null : words.say(`checklist.group-${group}`)
}

function rowTitle(words: Words, { values }: FormState, at: number, id: string): string {
  if (isShippedItem(id)) return words.say(`checklist.item-${id}`)
  const text = (values[`items.${at}.text`] ?? '').trim()
  return id !== '' && text !== '' ? text : words.say('checklist.new-item')
}
