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
    notes: [inText(words, plan)],
    leftOut: leftOut(words, plan),
    pieces: plan.pieces.flatMap(({ piece, copies: times }) => Array.from({ length: times }, () => piece)),
  }
}

function inText(words: Words, { pieces }: PrintPlan): string {
  const list = words.list(
    pieces.map(({ title, copies }) => (copies === 1 ? title : words.say('papers.times', { title, copies }))),
  )
  return words.say('papers.in', { count: sheetCount(pieces), list })
}

function leftOut(words: Words, { leftOut: left }: PrintPlan): PapersPage['leftOut'] {
  if (left.length === 0) return null
  const list = words.list(left.map(({ title, pages }) => words.say('papers.left', { title, pages })))
  return {
    label: words.say('papers.left-out-label', { count: left.length, sheets: USUAL_SHEETS }),
    text: words.say('papers.left-out', { list }),
  }
}
