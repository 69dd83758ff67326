/**
 * Letters of Andika 5.3.0, the bundled type, by the widths of their regular and bold forms in thousandths of the type size:
 * measured in Chromium, rounded up, and each row as wide as its widest letter.
 */
const WIDTHS: readonly (readonly [regular: number, bold: number, letters: string])[] = [
  [235, 269, '′'],
  [267, 379, '‘’'],
  [269, 269, ' \u00a0'],
  [291, 328, 'j'],
  [296, 315, "'`ilı"],
  [313, 350, '.:°'],
  [318, 325, ','],
  [337, 347, ';|'],
  [359, 430, 'ľ'],
  [386, 391, '!f¡‚‹›'],
  [389, 420, '()[]'],
  [411, 484, '″'],
  [420, 438, '-^tł'],
  [435, 486, 'r'],
  [477, 511, 'IJs'],
  [494, 621, '”'],
  [501, 530, '"/\\'],
  [506, 556, 'k'],
  [508, 518, '*cz{}'],
  [513, 643, '“'],
  [528, 552, '?Lvy¿–'],
  [530, 579, 'x'],
  [552, 562, 'e~Ł'],
  [552, 591, 'q'],
  [557, 652, '„'],
  [567, 586, 'Fgoðø'],
  [579, 614, 'Sabnu'],
  [586, 604, '+<=>Ehp×÷þ−'],
  [586, 606, '#$0123456789€'],
  [597, 662, '&'],
  [601, 623, 'PZdÞđ'],
  [605, 694, 'ß'],
  [635, 638, 'T_«»'],
  [638, 677, 'BRơ'],
  [640, 699, 'K'],
  [662, 677, 'CXY'],
  [679, 748, 'ď'],
  [682, 726, 'AV'],
  [691, 771, 'ư'],
  [713, 733, 'DGOUÐØĐ'],
  [733, 755, 'HNQ'],
  [743, 820, 'Ơ'],
  [757, 767, '%w'],
  [782, 843, '½'],
  [804, 821, 'Ư'],
  [832, 860, '@m'],
  [842, 811, '…'],
  [853, 872, 'æ—'],
  [882, 906, 'MÆ'],
  [909, 884, 'œ'],
  [953, 972, 'Œ'],
  [1016, 1043, 'W'],
]
/** Letters of other scripts are set in fonts of the machine, which also have these Vietnamese ones; the widest of them are square. */
const SQUARE = [1000, 1000] as const
const MACHINE_LETTER = /[\u1ea0-\u1ef9]/
const KNOWN = new Map(
  WIDTHS.flatMap(([regular, bold, letters]) => [...letters].map((letter) => [letter, [regular, bold]] as const)),
)

/** A letter with marks is as wide as the same letter without, where the table does not say otherwise. */
function widthsOf(letter: string): readonly [regular: number, bold: number] {
  const known = KNOWN.get(letter)
  if (known !== undefined) return known
  const base = letter.normalize('NFD').replace(/\p{Mn}/gu, '')
  if (base === '') return [0, 0]
  return (MACHINE_LETTER.test(letter) ? undefined : KNOWN.get(base)) ?? SQUARE
}

/** At most how wide a line of words is in the bundled type, in type sizes. */
export const lineEm = (line: string, isBold = false): number =>
  [...line.normalize('NFC')].reduce((sum, letter) => sum + widthsOf(letter)[isBold ? 1 : 0], 0) / 1000

/** A text in lines no wider than the room, word after word; a word that is wider alone goes on in the next line. */
export function linesOf(text: string, roomEm: number, isBold = false): readonly string[] {
  const lines: string[] = []
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1)
    const longer = last === undefined ? word : `${last} ${word}`
    if (last !== undefined && lineEm(longer, isBold) <= roomEm) lines[lines.length - 1] = longer
    else lines.push(...pieces(word, roomEm, isBold))
  }
  return lines
}

function pieces(word: string, roomEm: number, isBold: boolean): string[] {
  const parts = ['']
  for (const letter of word) {
    const longer = (parts.at(-1) ?? '') + letter
    if (longer.length > 1 && lineEm(longer, isBold) > roomEm) parts.push(letter)
    else parts[parts.length - 1] = longer
  }
  return parts
}
