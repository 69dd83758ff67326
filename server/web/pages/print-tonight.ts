import type { Words } from '../../words/words.ts'
import type { PapersPage } from './paper.ts'
import {
  type CopiesAsked,
  copiesText,
  type OfferedPiece,
  type PrintPlan,
  printPlan,
  sheetCount,
  USUAL_SHEETS,
} from './paper-choice.ts'
import { paperFrame } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import { secondAsked } from './second-language.ts'
import type { Viewer } from './sheet.ts'

/** The papers of a night as one document, with what was left out of it named above. */
export function printTonightPage(
  viewer: Viewer,
  { night, look, second }: PrintSubject,
  all: readonly OfferedPiece[],
  copies: CopiesAsked,
): PapersPage {
  const { words } = viewer
  const plan = printPlan(all, copies, look)
  const asked = { ...secondAsked(second), ...copiesText(copies) }
  return {
    ...paperFrame(viewer, { night, name: 'tonight', title: words.say('print.tonight'), look, asked }),
    notes: notesOf(words, plan),
    pieces: plan.pieces.flatMap(({ piece, copies: times }) => Array.from({ length: times }, () => piece)),
  }
}

function notesOf(words: Words, { pieces, leftOut }: PrintPlan): string[] {
  const list = words.list(
    pieces.map(({ title, copies }) => (copies === 1 ? title : words.say('papers.times', { title, copies }))),
  )
  const left = words.list(leftOut.map(({ title, pages }) => words.say('papers.left', { title, pages })))
  return [
    words.say('papers.in', { count: sheetCount(pieces), list }),
    ...(leftOut.length === 0 ? [] : [words.say('papers.left-out', { sheets: USUAL_SHEETS, list: left })]),
  ]
}
