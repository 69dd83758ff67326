import type { NightReport } from '../../server/desk/reports.ts'
import { svgElement, svgText } from '../../server/drawings/svg.ts'
import { SHIPPED_ITEMS } from '../../server/tours/checklist-items.ts'
import { NO_VISIT } from '../../server/tours/class-visit.ts'
import { NO_NOTES } from '../../server/tours/site-notes.ts'
import { joinCardPage } from '../../server/web/pages/join-card.ts'
import type { PapersPage } from '../../server/web/pages/paper.ts'
import { offeredPieces } from '../../server/web/pages/paper-choice.ts'
import { PIECE_NAMES, type PrintSubject, papersPage, pieceOf } from '../../server/web/pages/papers.ts'
import { type PapersForm, papersForm } from '../../server/web/pages/papers-form.ts'
import type { PrintPictures, SizedPicture } from '../../server/web/pages/print-pictures.ts'
import { reportPaper } from '../../server/web/pages/report.ts'
import { A_SET_UP } from './alignment-data.ts'
import { A_BARE_MONTH, A_BRIGHT_MONTH } from './bare-eyes-data.ts'
import { A_BESIDE, A_MIXED_NIGHT } from './beside-data.ts'
import { A_NIGHT } from './field-data.ts'
import { A_THIN, NO_THIN } from './go-data.ts'
import { A_VISIT, AN_OWN_ITEM, SOME_NOTES } from './note-pages.ts'
import {
  A_CHECK,
  AN_EVENING,
  EMPTY_TOUR,
  HOST,
  IN_GERMAN,
  NAMES,
  ONE_LANGUAGE,
  TOUR,
  UNTOLD,
  VISITOR,
} from './page-data.ts'
import { A_JOIN_CARD } from './phone-pages.ts'
import { A_REPORT, AN_EARLY_REPORT } from './report-pages.ts'

const A_PICTURE: SizedPicture = {
  svg: svgElement('svg', { viewBox: '0 0 84 84', role: 'img' }, svgElement('title', {}, svgText('A picture.'))),
  notes: ['What the picture means.'],
  widthMm: 84,
  heightMm: 46,
  legend: null,
}
const PICTURES: PrintPictures = {
  field: () => A_PICTURE,
  finder: () => A_PICTURE,
  walk: () => A_PICTURE,
  sky: () => A_PICTURE,
  score: () => [A_PICTURE],
}

export const A_FULL_PRINT: PrintSubject = {
  night: A_MIXED_NIGHT,
  tour: TOUR,
  isStale: true,
  names: NAMES,
  evening: AN_EVENING,
  setUp: A_SET_UP,
  checks: [A_CHECK],
  beside: A_BESIDE,
  thin: A_THIN,
  bareEyes: A_BARE_MONTH,
  groupText: 'Every first Friday behind the mill.',
  siteNotes: SOME_NOTES,
  checklist: [...SHIPPED_ITEMS, AN_OWN_ITEM],
  visit: A_VISIT,
  second: IN_GERMAN,
  pictures: PICTURES,
  look: { paper: 'a4', letters: 'normal' },
  cards: { size: 'four', hasBacks: true },
}

export const AN_EMPTY_PRINT: PrintSubject = {
  night: { ...A_NIGHT, visitors: [], stations: [] },
  tour: EMPTY_TOUR,
  isStale: false,
  names: UNTOLD,
  evening: AN_EVENING,
  setUp: { ...A_SET_UP, pairs: [] },
  checks: [],
  beside: [],
  thin: NO_THIN,
  bareEyes: A_BRIGHT_MONTH,
  groupText: '',
  siteNotes: NO_NOTES,
  checklist: [],
  visit: NO_VISIT,
  second: ONE_LANGUAGE,
  cards: { size: 'four', hasBacks: false },
  pictures: { ...PICTURES, field: () => null, finder: () => null, walk: () => null, score: () => [] },
  look: { paper: 'letter', letters: 'large' },
}

const allOf = (subject: PrintSubject, card: PapersPage, report: NightReport): PapersPage => ({
  ...papersPage(HOST, subject, 'cards'),
  pieces: [
    ...PIECE_NAMES.map((name) => pieceOf(HOST, subject, name)),
    ...card.pieces,
    ...reportPaper(HOST, report, subject.names, subject.look).pieces,
  ],
})

interface PaperPages {
  readonly papers: readonly [full: PapersPage, empty: PapersPage]
  readonly 'papers-form': readonly [full: PapersForm, empty: PapersForm]
}

/** Every piece in one document, once with all that it can say and once with nothing; and the choice of them. */
export const PAPER_PAGES: PaperPages = {
  'papers-form': [
    papersForm(HOST, A_FULL_PRINT, offeredPieces(HOST, A_FULL_PRINT, A_JOIN_CARD), null),
    papersForm(VISITOR, AN_EMPTY_PRINT, offeredPieces(VISITOR, AN_EMPTY_PRINT, null), { cards: 3 }),
  ],
  papers: [
    allOf(A_FULL_PRINT, joinCardPage(HOST, A_JOIN_CARD, A_FULL_PRINT.look), A_REPORT),
    allOf(AN_EMPTY_PRINT, joinCardPage(HOST, { ...A_JOIN_CARD, addresses: [] }, AN_EMPTY_PRINT.look), AN_EARLY_REPORT),
  ],
}
