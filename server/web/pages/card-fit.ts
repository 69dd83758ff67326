import { lineEm, linesOf } from '../../drawings/letter-widths.ts'

/** Four to a page of either paper, or single cards with pages of their own: A6, and the two index cards in inches. */
export const CARD_SIZES = ['four', 'a6', '5x3', '6x4'] as const
export type CardSize = (typeof CARD_SIZES)[number]

/** A paragraph, with a label in bold letters before it or with none. */
export interface Told {
  readonly label: string | null
  readonly text: string
}

/** What stands on the front of a card, as far as it takes room. */
export interface Face {
  readonly name: string
  readonly kind: string
  readonly distance: string | null
  readonly see: string | null
  /** The paragraphs beneath. */
  readonly said: readonly Told[]
  /** The paragraphs in the second language. */
  readonly second: readonly string[]
  /** Empty lines for the host's own words. */
  readonly ownLines: number
  readonly foot: string
}

/** What stands on the back of a card, as far as it takes room. */
interface BackFace {
  readonly name: string | null
  readonly pictureHeightsMm: readonly number[]
  /** The paragraphs below the pictures. */
  readonly told: readonly Told[]
  readonly foot: string | null
}

interface Room {
  readonly widthMm: number
  readonly heightMm: number
}

/** The type of names, of what is said before the look and of the rest, in points. */
interface Types {
  readonly name: number
  readonly see: number
  readonly said: number
}

interface Front extends Room {
  readonly large: Types
  readonly tight: Types
}

const UPRIGHT = { large: { name: 21, see: 14, said: 13 }, tight: { name: 17, see: 12, said: 12 } }
/** The live areas of fronts; `cards.css` has the same. */
const FRONTS: Readonly<Record<CardSize, Front>> = {
  four: { widthMm: 89, heightMm: 122, ...UPRIGHT },
  a6: { widthMm: 89, heightMm: 132, ...UPRIGHT },
  '5x3': {
    widthMm: 117,
    heightMm: 66,
    large: { name: 17, see: 13, said: 12 },
    tight: { name: 14, see: 12, said: 12 },
  },
  '6x4': { widthMm: 138, heightMm: 87, ...UPRIGHT },
}
interface Back extends Room {
  /** How high a finder chart is on it; null where there is room for none. */
  readonly finderMm: number | null
}
/** The live areas of backs, that of 6 x 4 in upright. */
export const BACKS: Readonly<Record<CardSize, Back>> = {
  four: { widthMm: 89, heightMm: 122, finderMm: 54 },
  a6: { widthMm: 89, heightMm: 132, finderMm: 60 },
  '5x3': { widthMm: 117, heightMm: 66, finderMm: null },
  '6x4': { widthMm: 89, heightMm: 142, finderMm: 60 },
}

const MM_PT = 72 / 25.4
const HOLE_MM = 9
const GAP_PT = 1.5 * MM_PT
const LINE = 1.25
const SMALL = { sizePt: 12, line: LINE, isBold: false }
const BACK_NAME = { sizePt: 14, line: 1.12, isBold: true }
/** The rule and the air under the kind, and over the second language. */
const RULE_PT = 2 * MM_PT + 1.5
const OWN_WORDS_PT = 3 * MM_PT
const OWN_LINE_PT = 9 * MM_PT + 0.75

interface Type {
  readonly sizePt: number
  readonly line: number
  readonly isBold: boolean
}

/** True when all of a face fits a card, in the larger type or in the smaller one, which has 12 points for all but the name. */
export function fits(face: Face, size: CardSize, isTight: boolean): boolean {
  const { widthMm, heightMm, large, tight } = FRONTS[size]
  const types = isTight ? tight : large
  const high = (text: string, type: Type, lessMm = 0) => heightPt(text, type, widthMm - lessMm)
  const name = { sizePt: types.name, line: 1.12, isBold: true }
  const see = { sizePt: types.see, line: LINE, isBold: true }
  const said = { sizePt: types.said, line: LINE, isBold: false }
  return stand(heightMm, [
    high(face.name, name, HOLE_MM),
    high(face.kind, SMALL) + (face.distance === null ? 0 : high(face.distance, SMALL)) + RULE_PT,
    ...(face.see === null ? [] : [high(face.see, see)]),
    ...face.said.map((told) => toldPt(told, said, widthMm)),
    ...face.second.map((text, i) => high(text, SMALL) + (i === 0 ? RULE_PT : 0)),
    ...(face.ownLines === 0 ? [] : [OWN_WORDS_PT + SMALL.sizePt * LINE + face.ownLines * OWN_LINE_PT]),
    high(face.foot, SMALL),
  ])
}

/** True when all of a back fits its card. */
export function fitsBack({ name, pictureHeightsMm, told, foot }: BackFace, size: CardSize): boolean {
  const { widthMm, heightMm } = BACKS[size]
  return stand(heightMm, [
    ...(name === null ? [] : [heightPt(name, BACK_NAME, widthMm - HOLE_MM)]),
    ...pictureHeightsMm.map((mm) => mm * MM_PT),
    ...told.map((it) => toldPt(it, SMALL, widthMm)),
    ...(foot === null ? [] : [heightPt(foot, SMALL, widthMm)]),
  ])
}

const stand = (heightMm: number, blocks: readonly number[]): boolean =>
  blocks.reduce((sum, block) => sum + block, 0) + (blocks.length - 1) * GAP_PT <= heightMm * MM_PT

const heightPt = (text: string, { sizePt, line, isBold }: Type, widthMm: number): number =>
  linesOf(text, (widthMm * MM_PT) / sizePt, isBold).length * sizePt * line

/** A label is wider than the same words in the letters of the rest: so much room is taken off every line. */
function toldPt({ label, text }: Told, type: Type, widthMm: number): number {
  if (label === null) return heightPt(text, type, widthMm)
  const moreMm = ((lineEm(label, true) - lineEm(label)) * type.sizePt) / MM_PT
  return heightPt(`${label} ${text}`, type, widthMm - moreMm)
}
