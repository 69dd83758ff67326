import { pointNamed } from './directions.ts'
import type { Words } from './words.ts'

/** A half of the Earth: which coordinate it belongs to, and its sign. */
interface Half {
  readonly axis: 'latitudeDeg' | 'longitudeDeg'
  readonly sign: 1 | -1
}

/** One number of a coordinate with the mark behind it, '' without one. */
interface Figure {
  readonly value: number
  readonly isWhole: boolean
  readonly mark: '' | '°' | "'" | '"'
}

/** What was typed of one coordinate. `isRead` is false where something in it belongs to no coordinate. */
export interface Piece {
  readonly figures: readonly Figure[]
  readonly sign: '' | '+' | '-'
  readonly half: Half | null
  readonly isRead: boolean
}

/** The compass points of the four halves. */
const HALVES: readonly (readonly [point: number, half: Half])[] = [
  [0, { axis: 'latitudeDeg', sign: 1 }],
  [4, { axis: 'longitudeDeg', sign: 1 }],
  [8, { axis: 'latitudeDeg', sign: -1 }],
  [12, { axis: 'longitudeDeg', sign: -1 }],
]

const LIKE: readonly (readonly [RegExp, string])[] = [
  [/[−–‒]/g, '-'],
  [/[º˚]/g, '°'],
  [/[′’‘´`ʹ]/g, "'"],
  [/''|[″”“]/g, '"'],
  [/[/\n]+\s*$/g, ''],
]
const TOKEN = /(\d+(?:[.,]\d+)?)|([°'":])|([+-])|([,;/\n])|(\p{L}+)|(\S)/gu

type Token =
  | { readonly kind: 'figure'; readonly text: string }
  | { readonly kind: 'mark' | 'sign' | 'break' | 'word' | 'stray'; readonly text: string }

const KINDS = ['figure', 'mark', 'sign', 'break', 'word', 'stray'] as const

/** The one or two coordinates in a text, none in a blank one; three or more come as one that cannot be read. */
export function piecesOf(words: Words, text: string): readonly Piece[] {
  const plain = LIKE.reduce((kept, [pattern, written]) => kept.replace(pattern, written), text.trim())
  const tokens = [...plain.matchAll(TOKEN)].map(([, ...found]): Token => {
    const kind = found.findIndex((part) => part !== undefined)
    return { kind: KINDS[kind] ?? 'stray', text: found[kind] ?? '' }
  })
  const groups = halvesByCount(groupsOf(tokens)).filter((group) => group.length > 0)
  if (groups.length > 2) return [pieceOf(words, tokens)]
  return groups.map((group) => pieceOf(words, group))
}

/** A new coordinate begins after a comma, at a letter that leads, after a letter that follows, and at a second sign. */
function groupsOf(tokens: readonly Token[]): Token[][] {
  const leads = tokens.find(({ kind }) => kind === 'word' || kind === 'figure')?.kind === 'word'
  const groups: Token[][] = [[]]
  let isClosed = false
  for (const token of tokens) {
    const group = groups.at(-1) ?? []
    const hasFigure = group.some(({ kind }) => kind === 'figure')
    const starts = hasFigure && (isClosed || token.kind === 'sign' || (token.kind === 'word' && leads))
    isClosed = token.kind === 'break' || (token.kind === 'word' && !leads)
    if (token.kind === 'break') continue
    if (starts) groups.push([token])
    else group.push(token)
  }
  return groups
}

/** Figures alone are two coordinates when there are too many for one, or when one with decimals is not the last. */
function halvesByCount(groups: Token[][]): Token[][] {
  const [only] = groups
  if (groups.length !== 1 || only === undefined || only.some(({ kind }) => kind === 'word')) return groups
  const figures = only.flatMap(({ kind, text }, at) => (kind === 'figure' ? [{ at, text }] : []))
  const isEven = figures.length % 2 === 0
  const isEarlyDecimal = figures.slice(0, -1).some(({ text }) => /[.,]/.test(text))
  const degrees = only.flatMap(({ text }, at) => (text === '°' ? [at] : []))
  const isTwo = degrees.length === 2 || (isEven && (figures.length > 3 || isEarlyDecimal))
  const second = figures[figures.length / 2]
  return isTwo && isEven && second ? [only.slice(0, second.at), only.slice(second.at)] : groups
}

function pieceOf(words: Words, tokens: readonly Token[]): Piece {
  const signs = tokens.filter(({ kind }) => kind === 'sign')
  const said = tokens.filter(({ kind }) => kind === 'word')
  const half = said.length === 1 ? halfOf(words, said[0]?.text ?? '') : undefined
  const firstFigure = tokens.findIndex(({ kind }) => kind === 'figure')
  const isSignFirst = tokens.every(({ kind }, at) => kind !== 'sign' || at < firstFigure)
  const isBare = tokens.every(({ kind }) => kind !== 'stray' && kind !== 'break')
  const [sign] = signs
  return {
    figures: figuresOf(tokens),
    sign: sign?.text === '-' ? '-' : sign ? '+' : '',
    half: half ?? null,
    isRead: isBare && isSignFirst && signs.length < 2 && (said.length === 0 || half !== undefined) && marksFit(tokens),
  }
}

/** Every mark stands behind a figure. */
const marksFit = (tokens: readonly Token[]): boolean =>
  tokens.every(({ kind }, at) => kind !== 'mark' || tokens[at - 1]?.kind === 'figure')

const figuresOf = (tokens: readonly Token[]): Figure[] =>
  tokens.flatMap(({ kind, text }, at) => {
    if (kind !== 'figure') return []
    const next = tokens[at + 1]?.text ?? ''
    return [
      {
        value: Number(text.replace(',', '.')),
        isWhole: !/[.,]/.test(text),
        mark: next === '°' || next === "'" || next === '"' ? next : '',
      },
    ]
  })

/** A half by its letter or its word, in the language of the words. */
function halfOf(words: Words, text: string): Half | undefined {
  const named = pointNamed(words, text)
  return HALVES.find(([point]) => point === named)?.[1]
}
