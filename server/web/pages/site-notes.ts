import type { Site } from '../../tours/site.ts'
import { NOTE_KEYS, type SiteNotes } from '../../tours/site-notes.ts'
import { siteNotesHref } from './notes-href.ts'
import type { PaperLook, PapersPage } from './paper.ts'
import type { PrintSubject } from './papers.ts'
import { placeText } from './place-text.ts'
import { paperSheet, type Viewer } from './sheet.ts'

/** Something to ask or to see to, with a box to tick. */
interface NoteLine {
  readonly label: string
  readonly ask: string
  /** What is known; null where a pen fills it in. */
  readonly answer: string | null
}

export interface SiteNotesPiece {
  readonly title: string
  readonly subtitle: string
  readonly place: string
  readonly intro: string
  readonly local: string
  readonly lines: readonly NoteLine[]
  readonly ownLabel: string
  readonly own: readonly string[]
  /** Lines to write on, below. */
  readonly blanks: readonly number[]
  readonly seenLabel: string
}

const BLANK_LINES = 3

/** What to ask and to see to at a site, with what is known of it, as of the night's papers. */
export const nightSiteNotes = (viewer: Viewer, { night, siteNotes }: PrintSubject): SiteNotesPiece =>
  siteNotesPiece(viewer, night.site, siteNotes)

/** The same of a site alone, for a first visit in daylight. */
export function siteNotesPiece({ words }: Viewer, site: Site, notes: SiteNotes): SiteNotesPiece {
  return {
    title: words.say('print.site-notes'),
    subtitle: site.name,
    place: placeText(words, site),
    intro: words.say('site-notes.paper-intro'),
    local: words.say('set-up.local'),
    lines: NOTE_KEYS.map((key) => ({
      label: words.say(`site-notes.${key}`),
      ask: words.say(`site-notes.ask-${key}`),
      answer: notes[key] === '' ? null : notes[key],
    })),
    ownLabel: words.say('site-notes.own-label'),
    own: notes.own,
    blanks: Array.from({ length: BLANK_LINES }, (_, i) => i),
    seenLabel: words.say('site-notes.seen'),
  }
}

/** The list on a paper of its own, which needs no night. */
export function siteNotesPaper(viewer: Viewer, site: Site, notes: SiteNotes, look: PaperLook): PapersPage {
  const { words } = viewer
  const asked = (changed: Partial<PaperLook>) =>
    `${siteNotesHref(site)}/print?${new URLSearchParams({ ...look, ...changed })}`
  const paper = look.paper === 'a4' ? 'letter' : 'a4'
  const letters = look.letters === 'large' ? 'normal' : 'large'
  return {
    sheet: paperSheet(viewer, `${words.say('print.site-notes')}: ${site.name}`),
    ...look,
    isLarge: look.letters === 'large',
    hint: words.say('print.hint'),
    notes: [],
    leftOut: null,
    links: [
      { href: siteNotesHref(site), text: words.say('site-notes.of', { site: site.name }) },
      { href: asked({ paper }), text: words.say(`print.use-${paper}`) },
      { href: asked({ letters }), text: words.say(`print.letters-${letters}`) },
    ],
    cardForm: null,
    pieces: [{ partial: 'site-notes', model: siteNotesPiece(viewer, site, notes) }],
  }
}
