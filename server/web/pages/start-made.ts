import { eveningDate } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { remarkText } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { hoursOf, type MadeLine, madeLines } from './start-made-lines.ts'

export interface StartMadePage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly lead: string
  readonly notices: readonly string[]
  readonly next: {
    readonly label: string
    readonly text: string
    readonly href: string
    readonly button: string
    readonly also: readonly { readonly href: string; readonly text: string }[]
  }
  /** What was assumed, then what was there already; a part with nothing in it is left out. */
  readonly parts: readonly { readonly label: string; readonly text: string; readonly lines: readonly MadeLine[] }[]
}

export interface StartMadeSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  /** True when the site stands where the list of towns has one. */
  readonly isTown: boolean
}

/** What was made of three lines: what of it was assumed, and the one thing to do next. */
export function startMadePage(viewer: Viewer, subject: StartMadeSubject): StartMadePage {
  const { words } = viewer
  const { night, tour } = subject
  const lines = madeLines(words, subject)
  const part = (name: string, isAssumed: boolean) => ({
    label: words.say(`start.${name}`),
    text: words.say(`start.${name}-text`),
    lines: lines.filter((line) => line.isAssumed === isAssumed).map(({ line }) => line),
  })
  return {
    sheet: daySheet(viewer, night.title, null),
    title: words.say('start.made'),
    nightTitle: night.title,
    lead: leadText(words, night, tour),
    notices: tour?.stops.length === 0 ? tour.notices.map((notice) => remarkText(words, notice)) : [],
    next: nextStep(words, night, tour),
    parts: [part('assumed', true), part('taken', false)].filter((each) => each.lines.length > 0),
  }
}

/** Papers, where there is something to print, else the programme that says why there is not. */
function nextStep(words: Words, { id }: Night, tour: Tour | undefined): StartMadePage['next'] {
  const programme = `/nights/${id}/programme`
  const label = words.say('page.next-step')
  if (!tour?.stops.length) {
    const button = words.say('start.next-programme')
    return { label, text: words.say('start.next-none'), href: programme, button, also: [] }
  }
  return {
    label,
    text: words.say('start.next'),
    href: `/nights/${id}/print/tonight`,
    button: words.say('start.next-button'),
    also: [
      { href: `/nights/${id}/papers`, text: words.say('start.next-papers') },
      { href: programme, text: words.say('start.next-programme') },
    ],
  }
}

const leadText = (words: Words, night: Night, tour: Tour | undefined): string =>
  words.say(tour ? 'start.made-lead' : 'start.made-lead-none', {
    count: tour?.stops.length ?? 0,
    date: words.date(eveningDate(night)),
    place: night.site.name,
    ...hoursOf(words, night),
  })
