import { eveningSpan, nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { SunTonight } from '../../tours/sun-tonight.ts'
import { sunText } from './align.ts'
import { type AloudLine, aloudLines, timeLine, type WrongEntry, wrongEntries, wrongLabels } from './aloud-text.ts'
import type { LookLink } from './field.ts'
import { rowHref } from './field-ways.ts'
import { alignHref, aloudHref, faultsHref, setUpHref } from './set-up-href.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export interface AloudPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly how: string
  readonly sun: string
  /** That the lines are those of another evening; null on the night itself. */
  readonly early: string | null
  readonly lines: readonly AloudLine[]
  readonly table: string
  readonly wrongLabel: string
  readonly seenLabel: string
  readonly caughtLabel: string
  readonly wrong: readonly WrongEntry[]
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

interface AloudSubject {
  readonly night: Night
  readonly sun: SunTonight
  readonly hasTour: boolean
  readonly look: 'day' | 'lamp'
}

/**
 * What two people read to each other against the hand controller of a mount. Time, date and offset are those of the
 * evening's clock; on any other day those of the opening, with the time of now beside them.
 */
export function aloudPage(viewer: Viewer, { night, sun, hasTour, look }: AloudSubject): AloudPage {
  const { words, now } = viewer
  const { fromAt, untilAt } = eveningSpan(night)
  const isTonight = fromAt <= now && now < untilAt
  const at = isTonight ? now : nightHours(night).opensAt
  const sheet = fieldSheet(viewer, words.say('aloud.of', { title: night.title }), look, ['page.js'])
  const other = look === 'lamp' ? 'day' : 'lamp'
  return {
    sheet: { ...sheet, styles: [...sheet.styles, 'aloud.css'] },
    title: words.say('aloud.title'),
    nightTitle: night.title,
    how: words.say('aloud.how'),
    sun: sunText(words, sun),
    early: isTonight ? null : words.say('aloud.early', { date: words.date(night.date) }),
    lines: aloudLines(words, { night, at, time: timeLine(words, now, night.site.zone) }),
    table: words.say('aloud.table'),
    ...wrongLabels(words),
    wrong: wrongEntries(words),
    lookLink: { href: `${aloudHref(night)}?look=${other}`, text: words.say(`field.look-${other}`) },
    ways: [
      { href: faultsHref(night), text: words.say('faults.title') },
      { href: alignHref(night), text: words.say('align.title') },
      { href: setUpHref(night), text: words.say('set-up.title') },
      ...(hasTour ? [{ href: `/nights/${night.id}/print/aloud`, text: words.say('aloud.print') }] : []),
      { href: rowHref(night), text: words.say('page.night-link-field') },
      { href: `/nights/${night.id}`, text: words.say('field.to-board') },
    ],
  }
}
