import type { BackupStatus } from '../../desk/backups.ts'
import type { EveningAnswer, TourState } from '../../desk/desk.ts'
import type { GoNight } from '../../desk/go.ts'
import type { PhoneNow } from '../../desk/joins.ts'
import type { FieldState } from '../../tours/field.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { type Attention, attention, isAhead } from './attention.ts'
import { backupAttention, backupText } from './backup-text.ts'
import { type DuskTimes, duskTimes } from './dusk.ts'
import { deadlineText, shortSentence } from './go-text.ts'
import { moonText } from './moon.ts'
import { type NextStep, nextStep } from './next-step.ts'
import { nightSheet } from './night-links.ts'
import { phonesText } from './phones-health.ts'
import { waitsText } from './phones-list.ts'
import { type ProgrammeNote, programmeNotes } from './programme-notes.ts'
import type { Names } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { type Timetable, timetable } from './timetable.ts'

interface BoardNight extends DuskTimes {
  readonly title: string
  readonly place: string
  readonly date: string
  readonly hoursLabel: string
  readonly hours: string
  readonly moonLabel: string
  readonly moon: string
}

export interface BoardPage {
  readonly sheet: Sheet
  readonly night: BoardNight | null
  readonly emptyTitle: string
  readonly nextLabel: string
  readonly next: NextStep
  readonly attentionLabel: string
  readonly attention: readonly Attention[]
  readonly notes: readonly ProgrammeNote[]
  /** That all is well; null when it is not, or the next step says what is not. */
  readonly calm: string | null
  /** False when there is nothing to say of what needs attention. */
  readonly hasAttention: boolean
  readonly programmeLabel: string
  readonly timetable: Timetable | null
  readonly noProgramme: string
  /** Whether the night takes place, and what more is published than stands here anyway, or until when it is decided. */
  readonly go: {
    readonly label: string
    readonly text: string | null
    readonly href: string | null
    readonly state: string
  } | null
  /** How many phones are in and who waits, for the host. */
  readonly phones: { readonly label: string; readonly href: string; readonly text: string } | null
  /** Whether copies of the database are made, for the host. */
  readonly copies: { readonly label: string; readonly href: string; readonly text: string } | null
}

/** What the board shows: the night with its sky, programme and field, or how much there is to start from. */
export interface BoardSubject {
  readonly night: Night | undefined
  readonly evening: EveningAnswer | undefined
  readonly tour: Tour | undefined
  /** How that programme stands to the night; undefined without one. */
  readonly state: TourState | undefined
  readonly field: FieldState | undefined
  /** Stations that have left the row. */
  readonly out: readonly string[]
  readonly go: GoNight | undefined
  readonly phones: readonly PhoneNow[]
  /** Null for whoever is not the host. */
  readonly backups: BackupStatus | null
  readonly siteCount: number
  readonly telescopeCount: number
  readonly names: Names
  readonly newKey: () => string
}

/** The host's board: the night, what needs attention, the programme of the row, and one next step. */
export function boardPage(viewer: Viewer, subject: BoardSubject): BoardPage {
  const { words } = viewer
  const { night, tour, names } = subject
  const next = nextStep(viewer, subject)
  return {
    sheet: night
      ? nightSheet(viewer, night.title, { night, hasTour: tour !== undefined, here: 'board' })
      : daySheet(viewer, words.say('page.home'), 'board'),
    night: night && subject.evening ? boardNight(viewer, night, subject.evening) : null,
    emptyTitle: words.say('page.no-night'),
    nextLabel: words.say('page.next-step'),
    next,
    attentionLabel: words.say('page.attention'),
    ...attentionPart(viewer, subject, next),
    programmeLabel: words.say('page.programme'),
    timetable: night && tour ? timetable(viewer, night, tour, names) : null,
    noProgramme: words.say('page.no-programme'),
    go: night && subject.go ? goPart(viewer, night, subject.go) : null,
    phones: night ? phonesPart(viewer, night, subject.phones) : null,
    copies: subject.backups && copiesPart(viewer, subject.backups),
  }
}

function goPart({ words, mayAct, now }: Viewer, night: Night, go: GoNight): BoardPage['go'] {
  const { id, state } = night
  if (state === 'closed' || (state === 'planned' && !mayAct)) return null
  return {
    label: words.say('go.title'),
    state: words.say(`go.state-${state}`),
    text: state === 'planned' ? deadlineText(words, night, go, now) : shortSentence(words, night, go),
    href: mayAct ? `/nights/${id}/go` : null,
  }
}

function phonesPart({ words, mayHost }: Viewer, { id }: Night, phones: readonly PhoneNow[]): BoardPage['phones'] {
  if (!mayHost) return null
  const waits = waitsText(words, phones)
  return {
    label: words.say('phones.title'),
    href: `/nights/${id}/phones`,
    text: [phonesText(words, phones), ...(waits === null ? [] : [waits])].join(' '),
  }
}

const copiesPart = (viewer: Viewer, status: BackupStatus): BoardPage['copies'] => ({
  label: viewer.words.say('backups.label'),
  href: '/backups',
  text: backupText(viewer, status),
})

type AttentionPart = Pick<BoardPage, 'attention' | 'notes' | 'calm' | 'hasAttention'>

function attentionPart(viewer: Viewer, subject: BoardSubject, { code }: NextStep): AttentionPart {
  const { night, tour, state, go, backups, newKey } = subject
  const ofNight = night
    ? attention(viewer, { ...subject, night, decisionAt: code === 'decide' ? null : (go?.decisionAt ?? null) })
    : []
  const ofCopies = backups ? backupAttention(viewer.words, backups) : []
  const copies = { href: '/backups', text: viewer.words.say('page.attention-copies') }
  const lines = [...ofNight, ...ofCopies.map((text) => ({ text, act: copies }))]
  const isSaid = code === 'rebuild'
  const notes = night && tour && state && !isSaid ? programmeNotes(viewer, { night, tour, state, newKey }) : []
  const isCalm = night !== undefined && isAhead(viewer, night) && !isSaid && lines.length + notes.length === 0
  return {
    attention: lines,
    notes,
    calm: isCalm ? viewer.words.say('page.calm') : null,
    hasAttention: isCalm || lines.length + notes.length > 0,
  }
}

function boardNight({ words }: Viewer, night: Night, evening: EveningAnswer): BoardNight {
  const { opensAt, closesAt } = nightHours(night)
  const { name, zone } = night.site
  return {
    title: night.title,
    place: name,
    date: words.date(night.date),
    hoursLabel: words.say('page.public-hours'),
    hours: words.say('page.from-to', { from: words.time(opensAt, zone), to: words.time(closesAt, zone) }),
    ...duskTimes(words, evening, night),
    moonLabel: words.say('page.moon'),
    moon: moonText(words, evening),
  }
}
