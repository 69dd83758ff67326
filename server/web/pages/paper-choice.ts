import { type Static, Type } from 'typebox'
import { invalid } from '../../errors.ts'
import { UNITS } from '../../words/words.ts'
import { type JoinCardSubject, joinPiece } from './join-card.ts'
import { Letters, Paper, type PaperLook, type PrintedPiece } from './paper.ts'
import { type ChosenModels, type ChosenName, pagesOf } from './paper-pages.ts'
import { PIECE_NAMES, type PieceName, type PrintSubject, pieceOf } from './papers.ts'
import type { Viewer } from './sheet.ts'

const AFTER: PieceName = 'check-sheet'
/** All pieces, the most useful in the field first; so they are printed, too. */
const CHOSEN_NAMES: readonly ChosenName[] = PIECE_NAMES.flatMap((name) =>
  name === AFTER ? [name, 'join-card' as const] : [name],
)

export const MOST_COPIES = 60
/** What is printed when nobody chooses. */
export const USUAL_SHEETS = 8
const MOST_SHEETS = 300

/** How something is printed. Units are read by the words of the reader, and remembered there. */
export const PrintQuery = Type.Object({
  paper: Type.Optional(Paper),
  letters: Type.Optional(Letters),
  units: Type.Optional(Type.Union(UNITS.map((units) => Type.Literal(units)))),
  second: Type.Optional(Type.String({ maxLength: 40 })),
})

const Copies = Type.Optional(Type.Integer({ minimum: 0, maximum: MOST_COPIES }))
/** What the address calls the number of copies of a piece. */
export const copiesField = (name: ChosenName): string => `copies-${name}`

/** The same with how many copies of each piece: `copies-run-sheet=1&copies-cards=2`. */
export const ChoiceQuery = Type.Object({
  ...PrintQuery.properties,
  ...Object.fromEntries(CHOSEN_NAMES.map((name) => [copiesField(name), Copies])),
})

export const lookAsked = ({ paper = 'a4', letters = 'normal' }: Static<typeof PrintQuery>): PaperLook => ({
  paper,
  letters,
})

/** How many copies of what; null where nobody chose. */
export type CopiesAsked = Readonly<Partial<Record<ChosenName, number>>> | null

export function copiesAsked(query: object): CopiesAsked {
  const asked = CHOSEN_NAMES.flatMap((name) => {
    const copies: unknown = Reflect.get(query, copiesField(name))
    return typeof copies === 'number' ? [[name, copies] as const] : []
  })
  return asked.length === 0 ? null : Object.fromEntries(asked)
}

/** The same as an address says it. */
export const copiesText = (copies: CopiesAsked): Readonly<Record<string, string>> =>
  Object.fromEntries(
    CHOSEN_NAMES.flatMap((name) => {
      const count = copies?.[name]
      return count === undefined ? [] : [[copiesField(name), String(count)]]
    }),
  )

/** A piece that can be printed of a night, with the pages that it takes in normal letters. */
export interface OfferedPiece {
  readonly name: ChosenName
  readonly title: string
  readonly pages: number
  readonly piece: PrintedPiece
}

interface PlannedPiece extends OfferedPiece {
  readonly copies: number
}

/** One document: its pieces in their order, and what was left out of the usual one. */
export interface PrintPlan {
  readonly pieces: readonly PlannedPiece[]
  readonly leftOut: readonly OfferedPiece[]
}

/** All that can be printed; `join` is null for whom the codes are not meant, and while no phone could join. */
export const offeredPieces = (
  viewer: Viewer,
  subject: PrintSubject,
  join: JoinCardSubject | null,
): readonly OfferedPiece[] =>
  CHOSEN_NAMES.flatMap((name) => {
    if (name !== 'join-card') return [offered(viewer, subject, name, pieceOf(viewer, subject, name))]
    return join === null || join.addresses.length === 0 ? [] : [offered(viewer, subject, name, joinPiece(viewer, join))]
  })

const offered = <Name extends ChosenName>(
  { words }: Viewer,
  { look }: PrintSubject,
  name: Name,
  piece: PrintedPiece<ChosenModels[Name]>,
): OfferedPiece => ({
  name,
  title: words.say(`print.${name}`),
  pages: pagesOf(name, piece.model, look.paper),
  piece,
})

/** Large letters may take a page more for each: so that eight stay eight. */
const sheetsOf = ({ pages }: OfferedPiece, { letters }: PaperLook): number => (letters === 'large' ? 2 * pages : pages)

/** What was asked for, each piece as often as was asked; without a wish as many pieces as eight sheets hold. */
export function printPlan(all: readonly OfferedPiece[], asked: CopiesAsked, look: PaperLook): PrintPlan {
  if (asked === null) return usualPlan(all, look)
  const pieces = all.map((piece) => ({ ...piece, copies: asked[piece.name] ?? 0 })).filter(({ copies }) => copies > 0)
  const sheets = sheetCount(pieces)
  if (sheets === 0) throw invalid([{ field: '', key: 'papers.none-chosen' }])
  if (sheets > MOST_SHEETS) {
    throw invalid([{ field: '', key: 'papers.too-many', values: { sheets, maximum: MOST_SHEETS } }])
  }
  return { pieces, leftOut: [] }
}

/** Piece after piece; one that does not fit is left out, and a smaller one may take its place. */
function usualPlan(all: readonly OfferedPiece[], look: PaperLook): PrintPlan {
  const pieces: PlannedPiece[] = []
  let room = USUAL_SHEETS
  for (const piece of all) {
    const sheets = sheetsOf(piece, look)
    if (sheets > room) continue
    pieces.push({ ...piece, copies: 1 })
    room -= sheets
  }
  return { pieces, leftOut: all.filter(({ name }) => !pieces.some((piece) => piece.name === name)) }
}

export const sheetCount = (pieces: readonly PlannedPiece[]): number =>
  pieces.reduce((sum, { pages, copies }) => sum + pages * copies, 0)
