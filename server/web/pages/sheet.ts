import type { Who } from '../../desk/desk.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'

/** How a page is lit: paper by day, one red lamp by night, or print. */
type Look = 'day' | 'lamp' | 'paper'

/** Who reads, when, and in which words: all that a page model needs beside its subject. */
export interface Viewer {
  readonly words: Words
  /** Who is signed in; undefined for a visitor. */
  readonly who?: Who | undefined
  readonly mayHost: boolean
  readonly mayAct: boolean
  readonly now: Date
  readonly isRehearsal: boolean
  /** The address of the page, to come back to; null where that makes no sense. */
  readonly path: string | null
  /** What a telescope of the kit is called, told apart from others of its name. */
  readonly telescopeName: (telescope: Pick<Telescope, 'id' | 'name'>) => string
  /** What a site is called, told apart from others of its name. */
  readonly siteName: (site: Pick<Site, 'id' | 'name'>) => string
}

/** True for the host at the laptop and for the host's phone: who may make, take and drop a programme. */
export const mayLead = ({ mayHost, who }: Pick<Viewer, 'mayHost' | 'who'>): boolean =>
  mayHost || who?.role === 'host-phone'

export interface SheetLink {
  readonly href: string
  readonly text: string
  readonly isHere: boolean
}

/** The pages of one night by the stage that they belong to. */
export interface NightNav {
  readonly label: string
  /** True where it stands below the content, so that what is on comes first. */
  readonly isBelow: boolean
  /** True where it is unfolded on a phone too. */
  readonly isOpen: boolean
  readonly board: SheetLink
  readonly groups: readonly { readonly heading: string; readonly links: readonly SheetLink[] }[]
}

/**
 * What the layout needs of every page. `styles` and `scripts` are asset names (`day.css`, `field.js`);
 * `reply.page` hands the layout their addresses as `assets.styles` and `assets.scripts`.
 */
export interface Sheet {
  readonly title: string
  /** The title where what was sent could not be kept, so that it is heard before the page. */
  readonly refusedTitle: string
  readonly language: string
  readonly look: Look
  readonly isLamp: boolean
  readonly isPaper: boolean
  readonly styles: readonly string[]
  readonly scripts: readonly string[]
  readonly skipText: string
  readonly homeText: string
  readonly links: readonly SheetLink[]
  readonly linksLabel: string
  /** The other pages of the night that the page belongs to. */
  readonly night: NightNav | null
  readonly rehearsalText: string | null
  readonly signIn: SheetLink | null
  readonly signOutText: string | null
  /** The way to another language, other units or another clock; null on paper and where somebody is already there. */
  readonly reading: Pick<SheetLink, 'href' | 'text'> | null
}

const PLACES = ['board', 'nights', 'objects', 'sites', 'telescopes'] as const
const HREFS = {
  board: '/',
  nights: '/nights',
  objects: '/objects',
  sites: '/sites',
  telescopes: '/telescopes',
} as const
type Here = (typeof PLACES)[number] | 'sign-in' | null

const DAY_STYLES = [
  'day.css',
  'night-links.css',
  'backups.css',
  'board.css',
  'programme.css',
  'wishes.css',
  'check.css',
  'line.css',
  'object-tonight.css',
  'objects.css',
  'object.css',
  'form.css',
  'checklists-form.css',
  'papers-form.css',
  'dates.css',
  'start.css',
  'go.css',
  'report.css',
  'telescope.css',
  'reading.css',
]

/** The frame of a page read by day, with its links; `here` marks the one that is open. */
export function daySheet(viewer: Viewer, title: string, here: Here, scripts: readonly string[] = ['page.js']): Sheet {
  const { words, mayHost } = viewer
  return {
    ...bare(viewer, title, 'day', DAY_STYLES, scripts),
    links: PLACES.map((place) => ({
      href: HREFS[place],
      text: words.say(`page.link-${place}`),
      isHere: place === here,
    })),
    signIn: viewer.who ? null : { href: '/sign-in', text: words.say('page.link-sign-in'), isHere: here === 'sign-in' },
    signOutText: mayHost ? words.say('page.sign-out') : null,
  }
}

/** A way from a page by the lamp to one that is by the lamp too. */
const litHref = (href: string): string => `${href}&look=lamp`

/** The same page by one red lamp. */
export const byLamp = (sheet: Sheet): Sheet => ({
  ...sheet,
  look: 'lamp',
  isLamp: true,
  styles: [...sheet.styles, 'lamp.css'],
  reading: sheet.reading && { ...sheet.reading, href: litHref(sheet.reading.href) },
})

/** The frame of a page for the field: a red lamp, or paper when the reader asked for the day look. */
export const fieldSheet = (viewer: Viewer, title: string, look: 'day' | 'lamp', scripts: readonly string[]): Sheet =>
  bare(viewer, title, look, [...(look === 'lamp' ? ['lamp.css'] : []), 'field.css'], scripts)

const PAPER_STYLES = [
  'paper.css',
  'run-sheet.css',
  'sheets.css',
  'check-sheet.css',
  'cards.css',
  'phones.css',
  'sky.css',
  'score.css',
  'walks.css',
  'eyepiece.css',
  'handout.css',
  'ticket.css',
  'sign.css',
  'tally.css',
  'set-up-sheet.css',
  'aloud-sheet.css',
  'teacher-sheet.css',
  'thin-cloud.css',
  'class-papers.css',
  'list-papers.css',
  'report-paper.css',
  'emergency-card.css',
]

/** The frame of a page that is printed. */
export const paperSheet = (viewer: Viewer, title: string): Sheet => bare(viewer, title, 'paper', PAPER_STYLES, [])

function bare(
  { words, isRehearsal, path }: Viewer,
  title: string,
  look: Look,
  styles: readonly string[],
  scripts: readonly string[],
): Sheet {
  const href = path === null ? null : `/reading?from=${encodeURIComponent(path)}`
  return {
    title,
    refusedTitle: words.say('page.refused-title', { title }),
    language: words.settings.language,
    look,
    isLamp: look === 'lamp',
    isPaper: look === 'paper',
    styles: ['fonts.css', 'rules.css', 'base.css', ...styles],
    scripts,
    skipText: words.say('page.skip'),
    homeText: words.say('page.home'),
    links: [],
    linksLabel: words.say('page.links'),
    night: null,
    rehearsalText: isRehearsal ? words.say('page.rehearsal') : null,
    signIn: null,
    signOutText: null,
    reading:
      look === 'paper' || href === null
        ? null
        : { href: look === 'lamp' ? litHref(href) : href, text: words.say('page.reading') },
  }
}
