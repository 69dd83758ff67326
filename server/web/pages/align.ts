import type { AlignmentPair } from '../../tours/alignment.ts'
import type { NoPairCause } from '../../tours/alignment-outlook.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { SunTonight } from '../../tours/sun-tonight.ts'
import type { Words } from '../../words/words.ts'
import { type AlignPairText, alignPairText } from './align-text.ts'
import type { LookLink } from './field.ts'
import { rowHref } from './field-ways.ts'
import { alignHref, setUpHref } from './set-up-href.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export interface AlignPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  /** The rule of the Sun, while it is up. */
  readonly sun: string | null
  /** Why there is no pair, and from when there is one; or that now is too early. */
  readonly note: string | null
  /** That nobody in the row needs this. */
  readonly handNote: string | null
  readonly pairs: readonly AlignPairText[]
  readonly errorLabel: string
  readonly proofLabel: string
  readonly how: string
  readonly action: string
  readonly look: 'day' | 'lamp'
  readonly timesLabel: string
  readonly times: readonly { readonly value: string; readonly text: string; readonly isHere: boolean }[]
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

export interface AlignSubject {
  readonly night: Night
  /** The instant that the page tells of. */
  readonly at: Date
  /** The clock time that was asked for, or null for the next useful moment. */
  readonly asked: string | null
  readonly pairs: readonly AlignmentPair[]
  /** What stood in the way at the instant that was looked from, and since when it does not. */
  readonly cause: NoPairCause | null
  readonly fromAt: Date | null
  readonly sun: SunTonight
  /** True while the Sun is up over the site, now or at the instant that the page tells of. */
  readonly isSunUp: boolean
  readonly times: readonly Date[]
  readonly look: 'day' | 'lamp'
}

/** Which two stars the driven mounts are set up on, at most three pairs, and what proves that it went well. */
export function alignPage(viewer: Viewer, subject: AlignSubject): AlignPage {
  const { words } = viewer
  const { night, at, pairs, look } = subject
  return {
    sheet: alignSheet(viewer, subject),
    title: words.say('align.title'),
    nightTitle: night.title,
    time: words.time(at, night.site.zone),
    sun: subject.isSunUp ? sunText(words, subject.sun) : null,
    note: noteText(words, subject),
    handNote: night.stations.some(({ telescope }) => telescope && telescope.mount !== 'altaz-hand')
      ? null
      : words.say('align.all-by-hand'),
    pairs: pairs.map((pair, place) => alignPairText(words, pair, place)),
    errorLabel: words.say('align.error'),
    proofLabel: words.say('align.proof'),
    how: words.say('align.how'),
    action: alignHref(night),
    look,
    timesLabel: words.say('align.times'),
    times: timeButtons(words, subject),
    lookLink: lookLink(words, subject),
    ways: [
      { href: `${setUpHref(night)}?look=${look}`, text: words.say('set-up.title') },
      { href: rowHref(night), text: words.say('page.night-link-field') },
      { href: `/nights/${night.id}`, text: words.say('field.to-board') },
    ],
  }
}

function alignSheet(viewer: Viewer, { night, look }: AlignSubject): Sheet {
  const sheet = fieldSheet(viewer, viewer.words.say('align.of', { title: night.title }), look, ['page.js'])
  return { ...sheet, styles: [...sheet.styles, 'align.css'] }
}

/** The rule of the Sun for an evening. */
export const sunText = (words: Words, sun: SunTonight): string => words.say(`set-up.sun-${sun}`)

/** Words for the instant that was looked from; null where its own stars are shown. */
function noteText(words: Words, { night, cause, fromAt, sun }: AlignSubject): string | null {
  if (cause === null) return null
  if (fromAt !== null) {
    return words.say(`align.none-${cause}-from`, { time: words.time(fromAt, night.site.zone) })
  }
  return words.say(cause === 'sun' && sun === 'stays-up' ? 'align.none-sun-stays' : `align.none-${cause}`)
}

function timeButtons(words: Words, { night, at, times }: AlignSubject): AlignPage['times'] {
  const { zone } = night.site
  return times.map((time) => ({
    value: wallClock(time, zone),
    text: words.time(time, zone),
    isHere: time.getTime() === at.getTime(),
  }))
}

function lookLink(words: Words, { night, asked, look }: AlignSubject): LookLink {
  const other = look === 'lamp' ? 'day' : 'lamp'
  const query = { ...(asked === null ? {} : { at: asked }), look: other }
  return { href: `${alignHref(night)}?${new URLSearchParams(query)}`, text: words.say(`field.look-${other}`) }
}
