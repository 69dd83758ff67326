import type { SetUp } from '../../desk/alignment.ts'
import type { Night } from '../../tours/night.ts'
import type { SetUpTime } from '../../tours/set-up-times.ts'
import type { Words } from '../../words/words.ts'
import { sunText } from './align.ts'
import { clockText } from './clock-text.ts'
import type { LookLink } from './field.ts'
import { lookLink, rowHref } from './field-ways.ts'
import { checklistsHref } from './notes-href.ts'
import { alignHref, setUpHref } from './set-up-href.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export interface SetUpPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  readonly sun: string
  readonly nowLabel: string
  /** What began last and holds now; null before the first step and after the last. */
  readonly now: SetUpLine | null
  readonly nextLabel: string
  readonly next: (SetUpLine & { readonly wait: string }) | null
  /** Said in place of both when the evening is over. */
  readonly over: string | null
  /** Why no step says align. */
  readonly noStars: string | null
  /** That the clocks change in the night; null on most. */
  readonly clocks: string | null
  readonly stepsLabel: string
  readonly steps: readonly (SetUpLine & { readonly isPast: boolean; readonly isNow: boolean })[]
  readonly stars: LookLink
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

interface SetUpLine {
  readonly time: string
  readonly text: string
}

interface SetUpSubject {
  readonly night: Night
  readonly setUp: SetUp
  readonly look: 'day' | 'lamp'
}

/** The evening from the arrival to the last walk over the field: the Sun first, what holds now and what comes next. */
export function setUpPage(viewer: Viewer, subject: SetUpSubject): SetUpPage {
  const { words, now } = viewer
  const { night, setUp, look } = subject
  const { times } = setUp
  const line = (time: SetUpTime): SetUpLine => setUpLine(words, night, time)
  const next = times.find(({ at }) => at > now)
  const running = next && times.findLast(({ at }) => at <= now)
  return {
    sheet: setUpFrame(viewer, subject),
    title: words.say('set-up.title'),
    nightTitle: night.title,
    time: words.time(now, night.site.zone),
    sun: sunText(words, setUp.sun),
    nowLabel: words.say('set-up.now'),
    now: running ? line(running) : null,
    nextLabel: words.say('set-up.next'),
    next: next ? { ...line(next), wait: waitText(words, next.at.getTime() - now.getTime()) } : null,
    over: next ? null : words.say('set-up.over'),
    noStars: noStarsText(words, setUp),
    clocks: clockText(words, night),
    stepsLabel: words.say('set-up.steps'),
    steps: times.map((time) => ({
      ...line(time),
      isNow: time === running,
      isPast: time !== running && time.at <= now,
    })),
    stars: { href: `${alignHref(night)}?look=${look}`, text: words.say('align.title') },
    lookLink: lookLink(words, look, setUpHref(night)),
    ways: [
      { href: `${checklistsHref(night)}?look=${look}`, text: words.say('checklist.title') },
      { href: rowHref(night), text: words.say('page.night-link-field') },
      { href: `/nights/${night.id}`, text: words.say('field.to-board') },
    ],
  }
}

/** Why no step says align; null where one does. */
export const noStarsText = (words: Words, { sun, times }: Pick<SetUp, 'sun' | 'times'>): string | null => {
  if (times.some(({ step }) => step === 'align')) return null
  return words.say(sun === 'stays-up' ? 'set-up.no-stars-sun' : 'set-up.no-stars')
}

/** A step of the evening with its time by the clocks of the site. */
export const setUpLine = (words: Words, { site }: Night, { step, at }: SetUpTime): SetUpLine => ({
  time: words.time(at, site.zone),
  text: words.say(`set-up.step-${step}`),
})

function setUpFrame(viewer: Viewer, { night, look }: SetUpSubject): Sheet {
  const sheet = fieldSheet(viewer, viewer.words.say('set-up.of', { title: night.title }), look, ['page.js'])
  return { ...sheet, styles: [...sheet.styles, 'set-up.css'] }
}

const MINUTE_MS = 60_000
const HOUR_MIN = 60
const DAY_MIN = 24 * HOUR_MIN

/** How long until then, in minutes, hours or days. */
function waitText(words: Words, ms: number): string {
  const minutes = Math.ceil(ms / MINUTE_MS)
  if (minutes < 2 * HOUR_MIN) return words.say('set-up.in-minutes', { count: minutes })
  const isDays = minutes >= 2 * DAY_MIN
  const count = Math.round(minutes / (isDays ? DAY_MIN : HOUR_MIN))
  return words.say(isDays ? 'set-up.in-days' : 'set-up.in-hours', { count })
}
