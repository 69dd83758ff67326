import { lineEm } from './letter-widths.ts'
import { type Svg, svgElement, svgPicture, svgText } from './svg.ts'

/** A name as large as paper allows; one unit of its drawing is a millimetre. */
export interface SignName {
  readonly svg: Svg
  readonly lines: readonly string[]
  /** Height of a capital letter in millimetres. */
  readonly capitalMm: number
  readonly widthMm: number
  readonly heightMm: number
}

export interface SignRoom {
  readonly widthMm: number
  readonly heightMm: number
}

/** To be read from five metres. */
export const WANTED_CAPITAL_MM = 45
// In type sizes, of the bundled bold type as measured in a browser: a capital, the tallest letter without and with an
// accent, what hangs below a line that has such letters and one that has none.
const CAPITAL_EM = 0.719
const TOP_EM = 0.79
const ACCENT_EM = 1
const HANGS_EM = 0.25
const STANDS_EM = 0.03
const PITCH_EM = 1.04
const STANDING = /^[A-PR-Za-fhik-or-xz0-9 .'’-]*$/
const USUAL_LINES = 2
const MOST_LINES = 4

/** The name in one or two lines, broken between words; in more only where that makes small letters larger. */
export function signName(name: string, room: SignRoom): SignName {
  const words = name.trim().split(/\s+/)
  const upTo = (most: number) =>
    Array.from({ length: Math.min(most, words.length) }, (_, k) => evenLines(words, k + 1))
      .map((lines) => ({ lines, sizeMm: sizeIn(lines, room) }))
      .reduce((best, next) => (next.sizeMm > best.sizeMm ? next : best))
  const usual = upTo(USUAL_LINES)
  const best = usual.sizeMm * CAPITAL_EM >= WANTED_CAPITAL_MM ? usual : upTo(MOST_LINES)
  return drawn(name, best.lines, best.sizeMm, room.widthMm)
}

function sizeIn(lines: readonly string[], { widthMm, heightMm }: SignRoom): number {
  const widest = Math.max(...lines.map((line) => lineEm(line, true)))
  return Math.min(widthMm / widest, heightMm / heightEm(lines))
}

const heightEm = (lines: readonly string[]): number =>
  topEm(lines) + (lines.length - 1) * PITCH_EM + (STANDING.test(lines.at(-1) ?? '') ? STANDS_EM : HANGS_EM)

const topEm = ([first = '']: readonly string[]): number => (/\p{M}/u.test(first.normalize('NFD')) ? ACCENT_EM : TOP_EM)

/** Words in so many lines that the widest is as narrow as can be. */
function evenLines(words: readonly string[], count: number): readonly string[] {
  if (count <= 1) return [words.join(' ')]
  const splits = Array.from({ length: words.length - count + 1 }, (_, k) => k + 1)
  return splits
    .map((at) => [words.slice(0, at).join(' '), ...evenLines(words.slice(at), count - 1)])
    .reduce((best, next) => (widestEm(next) < widestEm(best) ? next : best))
}

const widestEm = (lines: readonly string[]): number => Math.max(...lines.map((line) => lineEm(line, true)))

function drawn(name: string, lines: readonly string[], sizeMm: number, widthMm: number): SignName {
  const heightMm = heightEm(lines) * sizeMm
  const svg = svgPicture(
    { width: widthMm, height: Math.ceil(heightMm), title: name },
    ...lines.map((line, k) =>
      svgElement(
        'text',
        {
          x: 0,
          y: (topEm(lines) + k * PITCH_EM) * sizeMm,
          'font-size': sizeMm,
          'font-weight': 700,
          fill: 'currentColor',
        },
        svgText(line),
      ),
    ),
  )
  return { svg, lines, capitalMm: CAPITAL_EM * sizeMm, widthMm, heightMm }
}
