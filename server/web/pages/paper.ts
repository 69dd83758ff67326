import { type Static, Type } from 'typebox'
import type { CardForm } from './card-choice.ts'
import type { Sheet } from './sheet.ts'

/** The two papers of the trade; every print page fits the live area that both have. */
export const Paper = Type.Union([Type.Literal('a4'), Type.Literal('letter')])
export type Paper = Static<typeof Paper>

/** How large letters are: large ones are a quarter larger, on more pages where they need them. */
export const Letters = Type.Union([Type.Literal('normal'), Type.Literal('large')])
export type Letters = Static<typeof Letters>

/** On what and how large something is printed. */
export interface PaperLook {
  readonly paper: Paper
  readonly letters: Letters
}

export interface PaperLink {
  readonly href: string
  readonly text: string
}

/** What the head of every printed page needs; none of its links and forms is printed. */
export interface PaperFrame extends PaperLook {
  readonly sheet: Sheet
  /** True for letters a quarter larger. */
  readonly isLarge: boolean
  readonly hint: string
  /** What is in the document; [] where there is nothing to say. */
  readonly notes: readonly string[]
  /** What was left out of it, under words that open it; null where nothing was. */
  readonly leftOut: { readonly label: string; readonly text: string } | null
  /** Back, to the other paper, to the other letters. */
  readonly links: readonly PaperLink[]
  /** How cards are printed; null for all other pieces. */
  readonly cardForm: CardForm | null
}

/** A piece as it is printed: the template `views/pieces/<partial>.hbs` and its model. */
export interface PrintedPiece<Model extends object = object> {
  readonly partial: string
  readonly model: Model
}

/** One or several pieces, one after the other, as one document. */
export interface PapersPage extends PaperFrame {
  readonly pieces: readonly PrintedPiece[]
}
