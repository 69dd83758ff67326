import type { Checklist } from '../../desk/notes.ts'
import { ANCHORS, ITEM_GROUPS, OWNER_ROLES } from '../../tours/checklist.ts'
import { isShippedItem } from '../../tours/checklist-items.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { checklistsHref } from './notes-href.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface ItemRow {
  readonly title: string
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
  readonly checklist: Checklist
  readonly rowCount: number
  readonly state: FormState
}

/** Every item of a night's list with its owner and time, to be changed, dropped or added to. */
export function checklistsForm(viewer: Viewer, subject: ChecklistsFormSubject): ChecklistsForm {
  const { words } = viewer
  const { night, rowCount, state } = subject
  const title = words.say('checklist.change')
  const rows = Array.from({ length: rowCount }, (_, i) => itemRow(words, state, i))
  return {
    sheet: daySheet(viewer, words.say('checklist.change-of', { title: night.title }), null),
    nightTitle: night.title,
    title,
    intro: words.say('checklist.intro'),
    local: words.say('set-up.local'),
    problems: problemList(
      words,
      state,
      rows.flatMap(({ fields }) => fields),
    ),
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
  const group = choice(
    name('group'),
    label('group'),
    ITEM_GROUPS.map((value) => ({ value, text: words.say(`checklist.group-${value}`) })),
  )
  return {
    title: rowTitle(words, state, at, id),
    hidden: { name: name('id'), value: id },
    fields: [
      ...(isShipped ? [] : [text(name('text'), { ...label('text'), isWide: true })]),
      choice(
        name('owner.role'),
        label('role'),
        OWNER_ROLES.map((value) => ({ value, text: words.say(`checklist.owner-${value}`) })),
      ),
      text(name('owner.name'), label('name')),
      number(name('offsetMin'), label('minutes')),
      choice(name('from'), label('when'), whens),
      ...(isShipped ? [] : [group]),
      ...(id === '' ? [] : [tick(name('drop'), label('drop'))]),
    ],
  }
}

function rowTitle(words: Words, { values }: FormState, at: number, id: string): string {
  if (isShippedItem(id)) return words.say(`checklist.item-${id}`)
  const text = (values[`items.${at}.text`] ?? '').trim()
  return id !== '' && text !== '' ? text : words.say('checklist.new-item')
}
