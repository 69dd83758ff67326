import type { TourState } from '../../desk/desk.ts'
import type { Night } from '../../tours/night.ts'
import { hasBegun } from '../../tours/programme.ts'
import type { Tour } from '../../tours/tour.ts'
import { clockText } from './clock-text.ts'
import { againHref } from './night-links.ts'
import { noStopsText } from './say.ts'
import { mayLead, type Viewer } from './sheet.ts'

interface NoteAct {
  readonly action: string
  readonly text: string
  readonly fields: readonly { readonly name: string; readonly value: string }[]
}

/** What must be known of a programme before one goes by it, where to look, and what the host can do about it. */
export interface ProgrammeNote {
  readonly text: string
  /** `isFirst` when one should look before one acts. */
  readonly look: { readonly href: string; readonly text: string; readonly isFirst: boolean } | null
  readonly act: NoteAct | null
}

interface NotesSubject {
  readonly night: Night
  readonly tour: Tour
  readonly state: TourState
  /** Makes the key of one mark, new for every form. */
  readonly newKey: () => string
}

/**
 * That a newer programme waits, that this one is not the one the row goes by, or that the night was changed after it, and that
 * the clocks change under it; [] when all is well.
 */
export function programmeNotes(viewer: Viewer, subject: NotesSubject): ProgrammeNote[] {
  return [...standingNotes(viewer, subject), ...clockNotes(viewer, subject.night)]
}

/** Why an empty programme is empty, for a page that does not say so elsewhere. */
export const emptyNotes = ({ words }: Viewer, tour: Tour): ProgrammeNote[] =>
  tour.stops.length > 0 ? [] : [{ text: noStopsText(words, tour), look: null, act: null }]

function clockNotes({ words }: Viewer, night: Night): ProgrammeNote[] {
  const text = clockText(words, night)
  const look = { href: `/nights/${night.id}/aloud`, text: words.say('aloud.title'), isFirst: false }
  return text === null ? [] : [{ text, look, act: null }]
}

function standingNotes(viewer: Viewer, subject: NotesSubject): ProgrammeNote[] {
  const { tour, state } = subject
  const { isCurrent, isStale, waiting } = state
  if (!isCurrent) return [otherNote(viewer, subject), ...(isStale ? [staleNote(viewer, subject)] : [])]
  if (waiting && waiting.id !== tour.id) return [waitingNote(viewer, subject, waiting)]
  return isStale ? [staleNote(viewer, subject)] : []
}

function waitingNote(
  viewer: Viewer,
  { night, newKey }: NotesSubject,
  { id, version, madeAt }: NonNullable<TourState['waiting']>,
): ProgrammeNote {
  const { words } = viewer
  return {
    text: words.say('page.newer-waits', { version, time: words.time(madeAt, night.site.zone) }),
    look: { href: `${againHref(night)}#new`, text: words.say('page.newer-look'), isFirst: true },
    act: acceptAct(viewer, night, id, newKey),
  }
}

function otherNote(viewer: Viewer, { night, tour, state, newKey }: NotesSubject): ProgrammeNote {
  const { words } = viewer
  return {
    text: words.say(state.waiting?.id === tour.id ? 'page.version-waits' : 'page.version-other'),
    look: { href: `/nights/${night.id}/programme`, text: words.say('page.version-current'), isFirst: false },
    act: acceptAct(viewer, night, tour.id, newKey),
  }
}

/** Once something is shown, the host first says what has changed. */
function staleNote(viewer: Viewer, { night, tour }: NotesSubject): ProgrammeNote {
  const { words, now } = viewer
  const isUnderWay = mayLead(viewer) && hasBegun(tour, [], now)
  const look = { href: againHref(night), text: words.say('again.title'), isFirst: true }
  if (isUnderWay) return { text: words.say('page.stale'), look, act: null }
  const act = { action: `/nights/${night.id}/programme`, text: words.say('page.build-again'), fields: [] }
  return { text: words.say('page.stale'), look: null, act: mayLead(viewer) ? act : null }
}

function acceptAct(viewer: Viewer, night: Night, tourId: string, newKey: () => string): NoteAct | null {
  if (!mayLead(viewer)) return null
  return {
    action: `/nights/${night.id}/programme/accept`,
    text: viewer.words.say('page.accept'),
    fields: [
      { name: 'key', value: newKey() },
      { name: 'tourId', value: tourId },
    ],
  }
}
