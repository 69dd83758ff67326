import { timedItems } from '../../tours/checklist.ts'
import { sunText } from './align.ts'
import { itemText, ownerText, timeText } from './checklist-text.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

export interface ChecklistSheet {
  readonly title: string
  readonly subtitle: string
  /** The rule of the Sun, which stands before everything. */
  readonly sun: string
  readonly local: string
  readonly labels: readonly string[]
  readonly lines: readonly { readonly time: string; readonly text: string; readonly owner: string }[]
  readonly emptyText: string
  readonly nightText: string
}

/** What is to be seen to by the clock, with a box and an owner each. */
export function checklistSheet(viewer: Viewer, { night, checklist, evening, setUp }: PrintSubject): ChecklistSheet {
  const { words } = viewer
  return {
    title: words.say('print.checklists'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    sun: sunText(words, setUp.sun),
    local: words.say('set-up.local'),
    labels: [
      words.say('print.time'),
      words.say('checklist.what'),
      words.say('checklist.who'),
      words.say('set-up.done'),
    ],
    lines: timedItems(checklist, night, evening).map(({ item, at }, place, items) => ({
      time: timeText(words, night, at, items[place - 1]?.at),
      text: itemText(words, item),
      owner: ownerText(viewer, item.owner),
    })),
    emptyText: words.say('checklist.empty'),
    nightText: night.title,
  }
}
