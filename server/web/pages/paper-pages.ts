import { linesOf } from '../../drawings/letter-widths.ts'
import type { CheckSheet, CheckTable } from './check-sheet.ts'
import type { ChecklistSheet } from './checklist-sheet.ts'
import type { JoinCard } from './join-card.ts'
import type { Paper } from './paper.ts'
import type { PieceModels } from './papers.ts'
import type { RunSheet } from './run-sheet.ts'
import type { SetUpSheet } from './set-up-sheet.ts'
import type { SiteNotesPiece } from './site-notes.ts'
import type { SkyPiece } from './sky.ts'
import type { StationSheet } from './station-sheets.ts'
import type { ThinCloudPiece } from './thin-cloud.ts'

/** The height of a page between its margins. */
const LIVE_MM = { a4: 273, letter: 254 } as const
const MM_PT = 25.4 / 72
const LINE = 1.25

const high = (text: string, widthMm: number, sizePt: number, isBold = false): number =>
  linesOf(text, widthMm / MM_PT / sizePt, isBold).length * sizePt * LINE * MM_PT

/** What can be chosen: every piece, and the join card, which shows codes and so is offered to the host alone. */
export type ChosenModels = PieceModels & { readonly 'join-card': JoinCard }
export type ChosenName = keyof ChosenModels

type Counts = { readonly [Name in ChosenName]?: (model: ChosenModels[Name], paper: Paper) => number }

/** How many pages the pieces take in normal letters that are not always one; reckoned from what stands on them. */
const PAGES: Counts = {
  'run-sheet': runSheetPages,
  sheets: ({ sheets }, paper) => sheets.reduce((sum, sheet) => sum + stationPages(sheet, paper), 0),
  'check-sheet': checkSheetPages,
  sky: skyPages,
  cards: ({ pages }) => Math.max(1, pages.length),
  handout: () => 2,
  aloud: () => 2,
  score: ({ sheets }) => Math.max(1, sheets.length),
  eyepiece: ({ pages }) => pages.length,
  walks: ({ pages }) => pages.length,
  'thin-cloud': thinCloudPages,
  sign: ({ signs }) => Math.max(1, signs.length),
  tally: ({ pages }) => pages.length,
  'set-up-sheet': setUpPages,
  checklists: checklistPages,
  'class-cloud': () => 2,
  'site-notes': siteNotePages,
  'teacher-sheet': ({ rounds, isRoundsApart }) => (rounds !== null && isRoundsApart ? 2 : 1),
  'join-card': ({ parts }) => Math.max(1, parts.length),
}

export const pagesOf = <Name extends ChosenName>(name: Name, model: ChosenModels[Name], paper: Paper): number =>
  PAGES[name]?.(model, paper) ?? 1

/** All but the table, in which a line has its own height and a room beneath it. */
const RUN_SHEET = { restMm: 172, padMm: 2.3, denseRestMm: 158, densePadMm: 1.5, nameMm: 62 }

function runSheetPages({ moves, isDense }: RunSheet, paper: Paper): number {
  const { restMm, padMm, denseRestMm, densePadMm, nameMm } = RUN_SHEET
  const [rest, pad, sizePt] = isDense ? [denseRestMm, densePadMm, 12] : [restMm, padMm, 13]
  const lines = moves.flatMap((move) => move.lines)
  return Math.ceil(lines.reduce((mm, { name }) => mm + high(name, nameMm, sizePt, true) + pad, rest) / LIVE_MM[paper])
}

/** Head and what is said; a line of the table, and the room that a moment has beneath it. */
const THIN = { restMm: 32, widthMm: 188, saidPt: 13, lineMm: 7.9, padMm: 2 }

function thinCloudPages({ lead, keep, moves }: ThinCloudPiece, paper: Paper): number {
  const { restMm, widthMm, saidPt, lineMm, padMm } = THIN
  const saidMm = [...lead, keep].reduce((mm, text) => mm + high(text, widthMm, saidPt) + padMm, restMm)
  const lines = moves.reduce((sum, move) => sum + move.lines.length, 1)
  return Math.ceil((saidMm + lines * lineMm) / LIVE_MM[paper])
}

/** The chart with its rooms and the version, and the warning of an old programme. */
const SKY = { restMm: { a4: 225, letter: 213 }, staleMm: 14, widthMm: 188, keySizePt: 14, keyGap: '    ' }

function skyPages({ picture, stale, key }: SkyPiece, paper: Paper): number {
  const numbers = key.map(({ number, name }) => `${number}\u00a0${name.replaceAll(' ', '\u00a0')}`).join(SKY.keyGap)
  const mm =
    SKY.restMm[paper] +
    (stale === null ? 0 : SKY.staleMm) +
    (numbers === '' ? 0 : high(numbers, SKY.widthMm, SKY.keySizePt)) +
    high(picture.notes.join(' '), SKY.widthMm, 12.5)
  return Math.ceil(mm / LIVE_MM[paper])
}

/** Where the glass stands on a page of its own: its head, and its letters. */
const SET_UP = { restMm: 42, widthMm: 188, sizePt: 14 }

function setUpPages({ glass, isGlassApart }: SetUpSheet, paper: Paper): number {
  const { restMm, widthMm, sizePt } = SET_UP
  const mm = glass.reduce((sum, { station, text }) => sum + high(`${station}: ${text}`, widthMm, sizePt), restMm)
  return isGlassApart ? 1 + Math.ceil(mm / LIVE_MM[paper]) : 1
}

/** Head and banner; the room beneath a line; and the width of what is to be seen to. */
const CHECKLIST = { restMm: 48, padMm: 1.9, textMm: 105, ownerMm: 33 }

function checklistPages({ lines }: ChecklistSheet, paper: Paper): number {
  const { restMm, padMm, textMm, ownerMm } = CHECKLIST
  const mm = lines.reduce(
    (sum, { text, owner }) => sum + Math.max(high(text, textMm, 12), high(owner, ownerMm, 12)) + padMm,
    restMm,
  )
  return Math.ceil(mm / LIVE_MM[paper])
}

/** Head and foot; what a line takes beside its letters; a line for a pen; and the width of a text. */
const SITE_NOTES = { restMm: 52, padMm: 2.6, blankMm: 7, widthMm: 180 }

function siteNotePages({ lines, own, blanks }: SiteNotesPiece, paper: Paper): number {
  const { restMm, padMm, blankMm, widthMm } = SITE_NOTES
  const asked = lines.map(
    ({ label, ask, answer }) =>
      high(`${label} ${ask}`, widthMm, 12) + (answer === null ? blankMm : high(answer, widthMm, 14)),
  )
  const below = [...own.map((line) => high(line, widthMm, 12)), ...blanks.map(() => blankMm)]
  return Math.ceil([...asked, ...below].reduce((sum, mm) => sum + mm + padMm, restMm) / LIVE_MM[paper])
}

/** Head, foot and what else fails of a station's sheet; a stop without and a line of what is to be said. */
const STATION = { restMm: 60, stopMm: 34, halfMm: 16 }

const stationPages = ({ stops, halves }: StationSheet, paper: Paper): number =>
  Math.max(
    1,
    Math.ceil((STATION.restMm + stops.length * STATION.stopMm + halves.length * STATION.halfMm) / LIVE_MM[paper]),
  )

const TABLE = { headMm: 38, lineMm: 12 * LINE * MM_PT, padMm: 2.2, nameMm: 40, widthMm: 190, afterMm: 4 }

/** A station breaks between its rows, its head again on the next page; its head is never left with less than two of them. */
function checkSheetPages({ tables, day }: CheckSheet, paper: Paper): number {
  const live = LIVE_MM[paper]
  let [pages, y] = [1, TABLE.headMm]
  for (const table of tables) {
    for (const { name, rows } of table.stations) {
      const headMm = high(`${name} ${day}`, TABLE.nameMm, 12, true) + TABLE.padMm
      const [first = 0, second = 0, ...rest] = rows.map((row) => rowHeight(row, table))
      for (const [i, mm] of [headMm + first + second, ...rest].entries()) {
        if (y + mm > live) [pages, y] = [pages + 1, i === 0 ? 0 : headMm]
        y += mm
      }
      y += TABLE.afterMm
    }
  }
  return pages
}

function rowHeight(
  { name, note, cells }: CheckTable['stations'][number]['rows'][number],
  { times }: CheckTable,
): number {
  const cellMm = (TABLE.widthMm - TABLE.nameMm - 2) / Math.max(1, times.length) - TABLE.padMm
  const texts = cells.map(({ where, state, eye }) =>
    [where, state, eye].reduce((sum, text, i) => sum + (text === '' ? 0 : high(text, cellMm, 12, i === 0)), 0),
  )
  return Math.max(TABLE.lineMm, high(`${name} ${note}`.trim(), TABLE.nameMm, 12, true), ...texts) + TABLE.padMm
}
