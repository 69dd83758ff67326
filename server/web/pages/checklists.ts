import type { Checklist } from '../../desk/notes.ts'
import { timedItems } from '../../tours/checklist.ts'
import type { Night } from '../../tours/night.ts'
import type { SunTonight } from '../../tours/sun-tonight.ts'
import { sunText } from './align.ts'
import { itemText, ownerText, timeText } from './checklist-text.ts'
import type { LookLink } from './field.ts'
import { lookLink, rowHref } from './field-ways.ts'
import { checklistsHref, siteNotesHref } from './notes-href.ts'
import { setUpHref } from './set-up-href.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

interface TickLine {
  readonly id: string
  readonly time: string
  readonly text: string
  readonly owner: string
  readonly isDone: boolean
  /** What a tap asks for: `tick` or `untick`. */
  readonly act: 'tick' | 'untick'
}

export interface ChecklistsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly sun: string
  readonly local: string
  /** How much is done. */
  readonly count: string
  readonly action: string
  readonly look: 'day' | 'lamp'
  /** Null for whoever has not joined and so only reads. */
  readonly mayTick: boolean
  readonly doneLabel: string
  readonly openLabel: string
  readonly lines: readonly TickLine[]
  readonly emptyText: string
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

interface ChecklistsSubject {
  readonly night: Night
  readonly checklist: Checklist
  readonly sunsetAt: Date | null
  readonly sunriseAt: Date | null
  readonly sun: SunTonight
  readonly hasTour: boolean
  readonly look: 'day' | 'lamp'
}

/** What is to be seen to on a night, in the order of the clock, the Sun first; whoever has joined may tick. */
export function checklistsPage(viewer: Viewer, subject: ChecklistsSubject): ChecklistsPage {
  const { words } = viewer
  const { night, checklist, look } = subject
  const timed = timedItems(checklist.items, night, subject)
  const isDone = (id: string): boolean => checklist.done.has(id)
  return {
    sheet: listSheet(viewer, night, look),
    title: words.say('checklist.title'),
    nightTitle: night.title,
    sun: sunText(words, subject.sun),
    local: words.say('set-up.local'),
    count: words.say('checklist.count', {
      done: timed.filter(({ item }) => isDone(item.id)).length,
      all: timed.length,
    }),
    action: `${checklistsHref(night)}/ticks`,
    look,
    mayTick: viewer.mayAct,
    doneLabel: words.say('checklist.is-done'),
    openLabel: words.say('checklist.is-open'),
    lines: timed.map(({ item, at }) => ({
      id: item.id,
      time: timeText(words, night, at),
      text: itemText(words, item),
      owner: ownerText(viewer, item.owner),
      isDone: isDone(item.id),
      act: isDone(item.id) ? 'untick' : 'tick',
    })),
    emptyText: words.say('checklist.empty'),
    lookLink: lookLink(words, look, checklistsHref(night)),
    ways: ways(viewer, subject),
  }
}

function ways({ words, mayHost }: Viewer, { night, hasTour, look }: ChecklistsSubject): LookLink[] {
  const { id, site } = night
  return [
    ...(mayHost ? [{ href: `${checklistsHref(night)}/edit`, text: words.say('checklist.change') }] : []),
    ...(hasTour ? [{ href: `/nights/${id}/print/checklists`, text: words.say('checklist.print') }] : []),
    ...(mayHost ? [{ href: siteNotesHref(site), text: words.say('site-notes.link') }] : []),
    { href: `${setUpHref(night)}?look=${look}`, text: words.say('set-up.title') },
    { href: rowHref(night), text: words.say('page.night-link-field') },
    { href: `/nights/${id}`, text: words.say('field.to-board') },
  ]
}

function listSheet(viewer: Viewer, night: Night, look: 'day' | 'lamp'): Sheet {
  const sheet = fieldSheet(viewer, viewer.words.say('checklist.of', { title: night.title }), look, ['page.js'])
  return { ...sheet, styles: [...sheet.styles, 'checklists.css'] }
}
