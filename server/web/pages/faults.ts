import type { FaultAsk, FaultFinding } from '../../desk/fault-slices.ts'
import type { Problem } from '../../errors.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { type FaultForm, faultForm } from './fault-form.ts'
import { type FaultAnswerText, faultAnswerText } from './fault-text.ts'
import type { LookLink } from './field.ts'
import { rowHref } from './field-ways.ts'
import { alignHref, aloudHref, faultsHref } from './set-up-href.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export interface FaultsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly intro: string
  readonly answer: FaultAnswerText | null
  readonly form: FaultForm
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

export interface FaultsSubject {
  readonly night: Night
  /** The instant at which something was missed. */
  readonly at: Date
  readonly look: 'day' | 'lamp'
  /** What was typed, by field. */
  readonly values: Readonly<Record<string, string>>
  /** The question that was understood; null before there is one. */
  readonly ask: FaultAsk | null
  readonly problems: readonly Problem[]
  readonly finding: FaultFinding
}

/** Why a mount misses: the question, and once it is asked the causes, likeliest first. */
export function faultsPage(viewer: Viewer, subject: FaultsSubject): FaultsPage {
  const { words } = viewer
  const { night, at, look, values } = subject
  const other = look === 'lamp' ? 'day' : 'lamp'
  const sheet = fieldSheet(viewer, words.say('faults.of', { title: night.title }), look, ['page.js'])
  const asked = new URLSearchParams({ ...values, at: wallClock(at, night.site.zone), look: other })
  return {
    sheet: { ...sheet, styles: [...sheet.styles, 'faults.css'] },
    title: words.say('faults.title'),
    nightTitle: night.title,
    intro: words.say('faults.intro'),
    answer: subject.ask === null ? null : faultAnswerText(words, subject.ask, subject.finding),
    form: faultForm(words, subject),
    lookLink: { href: `${faultsHref(night)}?${asked}`, text: words.say(`field.look-${other}`) },
    ways: [
      { href: aloudHref(night), text: words.say('aloud.title') },
      { href: alignHref(night), text: words.say('align.title') },
      { href: rowHref(night), text: words.say('page.night-link-field') },
      { href: `/nights/${night.id}`, text: words.say('field.to-board') },
    ],
  }
}
