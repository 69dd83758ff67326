import type { SetUp } from '../../desk/alignment.ts'
import type { EveningAnswer } from '../../desk/desk.ts'
import type { BareEyesMonth } from '../../tours/bare-eyes-month.ts'
import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { Check } from '../../tours/check.ts'
import type { ChecklistItem } from '../../tours/checklist.ts'
import type { ClassVisit } from '../../tours/class-visit.ts'
import type { Night } from '../../tours/night.ts'
import type { SiteNotes } from '../../tours/site-notes.ts'
import type { ThinCloud } from '../../tours/thin-cloud.ts'
import type { Tour } from '../../tours/tour.ts'
import { aloudSheet } from './aloud-sheet.ts'
import { type CardChoice, cardsAsked } from './card-choice.ts'
import { cardForm } from './card-form.ts'
import { cards } from './cards.ts'
import { checkSheet } from './check-sheet.ts'
import { checklistSheet } from './checklist-sheet.ts'
import { classCloud } from './class-cloud.ts'
import { classLetter } from './class-letter.ts'
import { emergencyCard } from './emergency-card.ts'
import { eyepiecePages } from './eyepiece.ts'
import { handout } from './handout.ts'
import type { PaperLook, PapersPage, PrintedPiece } from './paper.ts'
import { paperFrame } from './paper-frame.ts'
import type { PrintPictures } from './print-pictures.ts'
import { runSheet } from './run-sheet.ts'
import type { Names } from './say.ts'
import { scorePiece } from './score.ts'
import { type SecondLanguage, secondAsked } from './second-language.ts'
import { setUpSheet } from './set-up-sheet.ts'
import type { Viewer } from './sheet.ts'
import { signs } from './sign.ts'
import { nightSiteNotes } from './site-notes.ts'
import { skyPiece } from './sky.ts'
import { stationSheets } from './station-sheets.ts'
import { tally } from './tally.ts'
import { teacherSheet } from './teacher-sheet.ts'
import { thinCloudPiece } from './thin-cloud.ts'
import { ticket } from './ticket.ts'
import { walksPiece } from './walks.ts'

/** All that is known of a night when its papers are printed; each piece takes what it needs. */
export interface PrintSubject {
  readonly night: Night
  readonly tour: Tour
  /** True when the night was changed after this programme was built. */
  readonly isStale: boolean
  readonly names: Names
  readonly evening: EveningAnswer
  readonly setUp: SetUp
  readonly checks: readonly Check[]
  readonly beside: readonly BesideHalf[]
  /** What the row would show through thin cloud. */
  readonly thin: ThinCloud
  /** What people can go and see by themselves in the weeks after it. */
  readonly bareEyes: BareEyesMonth
  /** How the group is found again; '' where nobody has said it. */
  readonly groupText: string
  /** What is known of the site; nothing of it for whoever is not the host. */
  readonly siteNotes: SiteNotes
  readonly checklist: readonly ChecklistItem[]
  /** What was agreed for a visiting class. */
  readonly visit: ClassVisit
  readonly second: SecondLanguage
  readonly pictures: PrintPictures
  readonly cards: CardChoice
  readonly look: PaperLook
}

/** What can be printed of a night, the most useful on the field first; so it is printed, too. */
const PIECES = {
  'run-sheet': runSheet,
  sheets: stationSheets,
  'check-sheet': checkSheet,
  sky: skyPiece,
  cards,
  handout,
  score: scorePiece,
  walks: walksPiece,
  eyepiece: eyepiecePages,
  'thin-cloud': thinCloudPiece,
  'emergency-card': emergencyCard,
  'set-up-sheet': setUpSheet,
  checklists: checklistSheet,
  aloud: aloudSheet,
  sign: signs,
  tally,
  ticket,
  'teacher-sheet': teacherSheet,
  'class-letter': classLetter,
  'class-cloud': classCloud,
  'site-notes': nightSiteNotes,
} as const satisfies Readonly<Record<string, (viewer: Viewer, subject: PrintSubject) => object>>
export type PieceName = keyof typeof PIECES
export const PIECE_NAMES = Object.keys(PIECES) as readonly PieceName[]
/** The model of each piece. */
export type PieceModels = { readonly [Name in PieceName]: ReturnType<(typeof PIECES)[Name]> }

/** One piece on a paper. */
export function papersPage(viewer: Viewer, subject: PrintSubject, name: PieceName): PapersPage {
  const { night, second, look } = subject
  const asked = { ...secondAsked(second), ...(name === 'cards' ? cardsAsked(subject.cards) : {}) }
  const title = viewer.words.say(`print.${name}`)
  return {
    ...paperFrame(viewer, { night, name, title, look, asked }),
    cardForm: name === 'cards' ? cardForm(viewer, subject) : null,
    pieces: [pieceOf(viewer, subject, name)],
  }
}

const MAKERS: { readonly [Name in PieceName]: (viewer: Viewer, subject: PrintSubject) => PieceModels[Name] } = PIECES

export const pieceOf = <Name extends PieceName>(
  viewer: Viewer,
  subject: PrintSubject,
  name: Name,
): PrintedPiece<PieceModels[Name]> => ({ partial: name, model: MAKERS[name](viewer, subject) })
