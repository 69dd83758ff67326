import type { KitMeaning, KitWords } from './kit-words.ts'

/** One kind of telescope in a sentence: how many, and what was said of them; null for what was not. */
export interface KitItem {
  readonly count: number | null
  readonly apertureMm: number | null
  readonly focalLengthMm: number | null
  /** Focal length by aperture. */
  readonly ratio: number | null
  readonly design: Extract<KitMeaning, { kind: 'telescope' }>['design']
  readonly mount: Extract<KitMeaning, { kind: 'telescope' }>['mount']
  /** A number without a unit, small enough to be a count. */
  readonly bare: number | null
  /** Millimetres of the unit that was said. */
  readonly unitMm: number | null
  readonly isNamed: boolean
  /** Its own words, to be quoted. */
  readonly said: string
}

const NOTHING: KitItem = {
  count: null,
  apertureMm: null,
  focalLengthMm: null,
  ratio: null,
  design: null,
  mount: null,
  bare: null,
  unitMm: null,
  isNamed: false,
  said: '',
}
/** A number without a unit is a width in millimetres from here on, and a count up to the other. */
const SURELY_MM = 40
const SURELY_COUNT = 12

const RATIO = /^f\s*\/?\s*([\d.]+)$/
const PAIR = /^([\d.]+)\s*\/\s*([\d.]+)$/
/** As some write `130/650`. */
const WIDTH_BY_FOCUS = /(\d+(?:\.\d+)?)\s*mm\s*x\s*(\d+(?:\.\d+)?)\s*mm/g
const NUMBER = /^\d+(\.\d+)?$/
const BETWEEN = /^[,;:+&•–-]$/
const AND: KitMeaning = { kind: 'and' }
const TOKEN =
  /\d+(?:\.\d+)?\s*\/\s*\d+(?:\.\d+)?|(?<!\p{L})f\s*\/?\s*\d+(?:\.\d+)?|\d+(?:\.\d+)?|\p{L}[\p{L}\p{M}'-]*|[^\s.!?()]/gu

/** The words and signs of a sentence; a comma between digits is that of a decimal where it can be one. */
const tokensOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .replace(/[″”“]|''/g, '"')
    .replace(/(\d+),(\d{1,2})(?!\d)/g, (whole, left: string, right: string) =>
      right.length === 1 || Number(left) < 20 ? `${left}.${right}` : whole,
    )
    .replace(/(\d)\s*[-–]\s*(?=\p{L})/gu, '$1 ')
    .replaceAll('×', 'x')
    .replace(WIDTH_BY_FOCUS, '$1/$2mm')
    .match(TOKEN) ?? []

/** `mm-refractor`, as languages with compounds write it, is a unit and a word. */
function unitApart(token: string, words: KitWords): readonly string[] {
  const [, unit = '', word = ''] = /^([^-]+)-(.+)$/.exec(token) ?? []
  return words.get(token) === undefined && words.get(unit)?.kind === 'unit' ? [unit, word] : [token]
}

/** The kinds of telescope in a sentence, in order, and the words that nothing is known of. */
export function kitItems(text: string, words: KitWords): { items: readonly KitItem[]; unknown: readonly string[] } {
  const tokens = tokensOf(text).flatMap((token) => unitApart(token, words))
  const made: KitItem[] = []
  const unknown: string[] = []
  let item = NOTHING
  const finish = () => {
    if (item !== NOTHING) made.push(item)
    item = NOTHING
  }
  for (let at = 0; at < tokens.length; at++) {
    const token = tokens[at] ?? ''
    const meant = BETWEEN.test(token) ? AND : words.get(token)
    if (meant?.kind === 'and') finish()
    if (meant?.kind === 'and' || meant?.kind === 'filler') continue
    const after = meaningAfter(tokens, at, words)
    const more = NUMBER.test(token) ? numberOf(Number(token), after) : (pairOf(token, after) ?? partOf(token, meant))
    if (!more) unknown.push(token)
    else {
      if (isAnother(item, more)) finish()
      const unit = more.unitMm ? ` ${tokens[at + 1]}` : ''
      item = { ...item, ...more, said: `${item.said} ${token}${unit}`.trim() }
      if (more.unitMm) at += 1
    }
  }
  finish()
  return { items: widthsFilled(joined(made)), unknown }
}

type More = Partial<KitItem> | null
type After = KitMeaning | 'number' | undefined

function meaningAfter(tokens: readonly string[], at: number, words: KitWords): After {
  const next = tokens[at + 1] ?? ''
  return NUMBER.test(next) || PAIR.test(next) || next === 'x' ? 'number' : words.get(next)
}

/** What a number says: a width where its unit follows, a count where another number does. */
function numberOf(value: number, after: After): More {
  const isCount = Number.isInteger(value)
  if (after === 'number') return isCount ? { count: value } : null
  if (typeof after === 'object' && after.kind === 'unit') return { apertureMm: inMm(value, after.mm), unitMm: after.mm }
  if (value >= SURELY_MM) return { apertureMm: value }
  return isCount && value <= SURELY_COUNT ? { bare: value } : { bare: null, isNamed: true }
}

/** Width and focal length, as makers write them: `130/650`. */
function pairOf(token: string, after: After): More {
  const [, width, focal] = PAIR.exec(token) ?? []
  if (width === undefined) return null
  const unit = typeof after === 'object' && after.kind === 'unit' ? after.mm : null
  const mm = unit ?? 1
  return { apertureMm: inMm(Number(width), mm), focalLengthMm: inMm(Number(focal), mm), unitMm: unit }
}

/** What any other word says; null for one that says nothing. */
function partOf(token: string, meant: KitMeaning | undefined): More {
  const [, ratio] = RATIO.exec(token) ?? []
  if (ratio !== undefined) return { ratio: Number(ratio) }
  if (meant?.kind === 'count') return { count: meant.count }
  if (meant?.kind !== 'telescope') return null
  const { design, mount } = meant
  return { ...(design && { design }), ...(mount && { mount }), ...(!(mount && !design) && { isNamed: true }) }
}

/** True when what comes belongs to the next kind of telescope. */
const isAnother = (item: KitItem, more: Partial<KitItem>): boolean =>
  item.apertureMm !== null && (more.apertureMm !== undefined || more.count !== undefined || more.bare !== undefined)

/** Tenths of a millimetre as they are said; inches are only ever about right. */
const inMm = (value: number, unitMm: number): number =>
  Number.isInteger(unitMm) ? Math.round(value * unitMm * 10) / 10 : Math.round(value * unitMm)

/** What says only how a telescope is ("by hand") belongs to the one before, and so does a width after a bare "two telescopes". */
function joined(items: readonly KitItem[]): readonly KitItem[] {
  const whole: KitItem[] = []
  for (const item of items) {
    const before = whole.at(-1)
    const isBare = item.apertureMm === null && item.bare === null && !item.isNamed
    const isAside = isBare && (item.count === null || (item.count === 1 && item.mount !== null))
    const isWidth = items.length === 2 && before?.apertureMm === null && item.apertureMm !== null && item.count === null
    if (!before || !(isAside || isWidth)) whole.push(item)
    else whole[whole.length - 1] = together(before, item)
  }
  return whole
}

const together = (before: KitItem, item: KitItem): KitItem => ({
  count: before.count ?? before.bare,
  apertureMm: item.apertureMm ?? before.apertureMm,
  focalLengthMm: item.focalLengthMm ?? before.focalLengthMm,
  ratio: item.ratio ?? before.ratio,
  design: item.design ?? before.design,
  mount: item.mount ?? before.mount,
  bare: null,
  unitMm: item.unitMm ?? before.unitMm,
  isNamed: true,
  said: `${before.said} ${item.said}`,
})

/** A number without a unit is a width in the unit that follows ("an 8 and a 10 inch"), else a count. */
const widthsFilled = (items: readonly KitItem[]): readonly KitItem[] =>
  items.map((item, i) => {
    const unitMm = items.slice(i + 1).find((next) => next.unitMm !== null)?.unitMm ?? null
    if (item.apertureMm === null && item.bare !== null && !item.isNamed && unitMm !== null) {
      return { ...item, apertureMm: inMm(item.bare, unitMm) }
    }
    return { ...item, count: item.count ?? item.bare }
  })
