import type { Words } from './words.ts'

const DEG_PER_FIST = 10
const HALVES: Readonly<Record<string, number>> = { '½': 0.5, '¼': 0.25, '¾': 0.75 }
const FIGURE = /^(\d+(?:[.,]\d+)?)?\s*([½¼¾])?\s*(.*)$/u

/**
 * A height above the level ground in degrees, as people type it: degrees (`12`, `12,5°`) or fists at arm's length, ten
 * degrees each (`2 fists`, `1½ fists`, `half a fist`). NaN for anything else.
 */
export function heightDeg(words: Words, text: string): number {
  const typed = text.trim().toLowerCase()
  if (typed === words.say('page.fists-half').toLowerCase()) return DEG_PER_FIST / 2
  const [, number, half, unit = ''] = FIGURE.exec(typed) ?? []
  if (number === undefined && half === undefined) return Number.NaN
  const size = Number((number ?? '0').replace(',', '.')) + (half === undefined ? 0 : (HALVES[half] ?? 0))
  if (unitsOf(words, 'skyline.fist-units').includes(unit)) return size * DEG_PER_FIST
  return unit === '' || unitsOf(words, 'skyline.degree-units').includes(unit) ? size : Number.NaN
}

const unitsOf = (words: Words, key: string): string[] => words.say(key).toLowerCase().split(' ')
