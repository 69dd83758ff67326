/** What stands on a card, as far as it takes room. */
export interface Face {
  readonly name: string
  readonly kind: string
  readonly distance: string | null
  readonly see: string | null
  /** The paragraphs beneath, each with its label. */
  readonly said: readonly string[]
  /** The paragraphs in the second language. */
  readonly second: readonly string[]
  /** Empty lines for the host's own words. */
  readonly ownLines: number
}

const MM_PT = 72 / 25.4
/** The live area that both papers have. */
const WIDTH_PT = 89 * MM_PT
const HEIGHT_PT = 122 * MM_PT
const HOLE_PT = 9 * MM_PT
const GAP_PT = 1.5 * MM_PT
const LINE = 1.25
const SMALL = { sizePt: 12, line: LINE, isBold: false }
/** The rule and the air under the kind, and over the second language. */
const RULE_PT = 2 * MM_PT + 1.5
const OWN_WORDS_PT = 3 * MM_PT
const OWN_LINE_PT = 9 * MM_PT + 0.5

interface Type {
  readonly sizePt: number
  readonly line: number
  readonly isBold: boolean
}

/** True when all of a face fits its card, in the larger type or in the smaller one of 12 points. */
export function fits(face: Face, isTight: boolean): boolean {
  const name = { sizePt: isTight ? 18 : 22, line: 1.12, isBold: true }
  const see = { sizePt: isTight ? 12 : 14, line: LINE, isBold: true }
  const said = { sizePt: isTight ? 12 : 13, line: LINE, isBold: false }
  const blocks = [
    heightPt(face.name, name, WIDTH_PT - HOLE_PT),
    heightPt(face.kind, SMALL) + (face.distance === null ? 0 : heightPt(face.distance, SMALL)) + RULE_PT,
    ...(face.see === null ? [] : [heightPt(face.see, see)]),
    ...face.said.map((text) => heightPt(text, said)),
    ...face.second.map((text, i) => heightPt(text, SMALL) + (i === 0 ? RULE_PT : 0)),
    ...(face.ownLines === 0 ? [] : [OWN_WORDS_PT + SMALL.sizePt * LINE + face.ownLines * OWN_LINE_PT]),
    SMALL.sizePt * LINE,
  ]
  return blocks.reduce((sum, block) => sum + block, 0) + (blocks.length - 1) * GAP_PT <= HEIGHT_PT
}

const heightPt = (text: string, type: Type, widthPt = WIDTH_PT): number =>
  lineCount(text, type, widthPt) * type.sizePt * type.line

/** How many lines a text takes: word after word, as a browser sets it. */
function lineCount(text: string, { sizePt, isBold }: Type, widthPt: number): number {
  const roomEm = widthPt / sizePt / (isBold ? BOLD : 1)
  let [lines, atEm] = [1, 0]
  for (const word of text.split(/\s+/)) {
    const wordEm = widthEm(word)
    if (atEm > 0 && atEm + BLANK_EM + wordEm > roomEm) [lines, atEm] = [lines + 1, wordEm]
    else atEm += (atEm > 0 ? BLANK_EM : 0) + wordEm
    lines += Math.floor(atEm / roomEm)
    atEm %= roomEm
  }
  return lines
}

const widthEm = (word: string): number =>
  [...word.normalize('NFD').replace(/\p{M}/gu, '')].reduce((sum, letter) => sum + (EM.get(letter) ?? OTHER_EM), 0)

const BLANK_EM = 0.269
/** Letters of other scripts are set in fonts of the machine; the widest of them are square. */
const OTHER_EM = 1
/** How much wider a line of bold letters is, at most. */
const BOLD = 1.09
/** Letters of Andika by their width in thousandths of the type size, rounded up; measured in a browser. */
const WIDTHS: readonly (readonly [number, string])[] = [
  [300, "ijl'’‘"],
  [325, '.,:;|'],
  [375, 'f!'],
  [425, 't-'],
  [440, 'r()'],
  [480, 'sIJ'],
  [505, 'ckz"“”„'],
  [535, 'evyxL?–'],
  [570, 'abgopqFE'],
  [590, 'dhnuPS0123456789'],
  [640, 'BKRTXYZß'],
  [720, 'ACDGHNOQUV'],
  [880, 'wmM—%&…'],
  [1020, 'W'],
]
const EM = new Map(WIDTHS.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width / 1000] as const)))
