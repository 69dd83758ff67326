import { eveningDate } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { nightSheet } from './night-links.ts'
import { remarkText } from './say.ts'
import type { Sheet, Viewer } from './sheet.ts'
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
    /** True for a form, false for a link. */
    readonly isPost: boolean
    readonly also: readonly { readonly href: string; readonly text: string }[]
  }
  /** What was assumed, then what was there already; a part with nothing in it is left out. */
  readonly parts: readonly { readonly label: string; readonly text: string; readonly lines: readonly MadeLine[] }[]
}

export interface StartMadeSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  /** True when the night was changed after its programme was built, and there is time to build it again. */
  readonly isStale: boolean
  /** True when the site stands where the list of towns has one. */
  readonly isTown: boolean
}

/** What was made of three lines: what of it was assumed, and the one thing to do next. */
export function startMadePage(viewer: Viewer, subject: StartMadeSubject): StartMadePage {
  const { words } = viewer
  const { night, tour, isStale } = subject
  const lines = madeLines(viewer, subject)
  const part = (name: string, isAssumed: boolean) => ({
    label: words.say(`start.${name}`),
    text: words.say(`start.${name}-text`),
    lines: lines.filter((line) => line.isAssumed === isAssumed).map(({ line }) => line),
  })
  return {
    sheet: nightSheet(viewer, night.title, { night, hasTour: tour !== undefined, here: null }),
    title: words.say('start.made'),
    nightTitle: night.title,
    lead: leadText(words, night, tour),
    notices: tour?.stops.length === 0 ? tour.notices.map((notice) => remarkText(words, notice)) : [],
    next:
      tour && isStale
        ? rebuildStep(words, night)
        : nextStep(
            words,
            night,
            tour,
            lines.some(({ isAssumed }) => isAssumed),
          ),
    parts: [part('assumed', true), part('taken', false)].filter((each) => each.lines.length > 0),
  }
}

/** What was corrected comes first: papers of before would be out of date. */
const rebuildStep = (words: Words, { id }: Night): StartMadePage['next'] => ({
  label: words.say('page.next-step'),
  text: words.say('page.step-rebuild'),
  href: `/nights/${id}/programme`,
  button: words.say('page.step-rebuild-button'),
  isPost: true,
  also: [],
})

/** Papers, where there is something to print, else the programme that says why there is not. */
function nextStep(words: Words, { id }: Night, tour: Tour | undefined, isAnyAssumed: boolean): StartMadePage['next'] {
  const programme = `/nights/${id}/programme`
  const label = words.say('page.next-step')
  if (!tour?.stops.length) {
    const button = words.say('start.next-programme')
    return { label, text: words.say('start.next-none'), href: programme, button, isPost: false, also: [] }
  }
  return {
    label,
    text: words.say(isAnyAssumed ? 'start.next' : 'start.next-known'),
    href: `/nights/${id}/print/tonight`,
    button: words.say('start.next-button'),
    isPost: false,
    also: [
      { href: `/nights/${id}/papers`, text: words.say('start.next-papers') },
      { href: programme, text: words.say('start.next-programme') },
    ],
  }
}

const leadText = (words: Words, night: Night, tour: Tour | undefined): string =>
  words.say(tour ? 'start.made-lead' : 'start.made-lead-none', {
    count: new Set(tour?.stops.map(({ targetKey }) => targetKey)).size,
    date: words.date(eveningDate(night)),
    place: night.site.name,
    ...hoursOf(words, night),
  })
