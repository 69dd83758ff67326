import type { Sheet } from './sheet.ts'

/** The two papers of the trade; every print page fits the live area that both have. */
export type Paper = 'a4' | 'letter'

/** What the head of every printed page needs. */
export interface PaperFrame {
  readonly sheet: Sheet
  readonly paper: Paper
  readonly otherPaper: { readonly href: string; readonly text: string }
  readonly hint: string
  readonly backHref: string
  readonly backText: string
}
