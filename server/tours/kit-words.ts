import type { Words } from '../words/words.ts'
import type { MountKind, TelescopeDraft } from './telescope.ts'

export type Design = TelescopeDraft['tubes'][number]['design']

/** What one word of a sentence about telescopes means. */
export type KitMeaning =
  | { readonly kind: 'count'; readonly count: number }
  | { readonly kind: 'unit'; readonly mm: number }
  | { readonly kind: 'telescope'; readonly design: Design | null; readonly mount: MountKind | null }
  | { readonly kind: 'and' }
  | { readonly kind: 'filler' }

/** What the words of one language mean, by the word in small letters. */
export type KitWords = ReadonlyMap<string, KitMeaning>

const UNITS_MM = { mm: 1, cm: 10, inch: 25.4 } as const
const COUNTS = 12
const TELESCOPES = {
  telescope: { design: null, mount: null },
  refractor: { design: 'refractor', mount: null },
  reflector: { design: 'reflector', mount: null },
  catadioptric: { design: 'catadioptric', mount: null },
  dobsonian: { design: 'reflector', mount: 'altaz-hand' },
  hand: { design: null, mount: 'altaz-hand' },
  driven: { design: null, mount: 'altaz-driven' },
  equatorial: { design: null, mount: 'equatorial' },
} as const satisfies Readonly<Record<string, { design: Design | null; mount: MountKind | null }>>

/** The words in which a language speaks of telescopes: each sentence of the table is a list of words with commas. */
export function kitWords(words: Words): KitWords {
  const listed = (key: string, meaning: KitMeaning): [string, KitMeaning][] =>
    words
      .say(key)
      .split(',')
      .map((word) => [word.trim(), meaning])
  const telescopes = Object.entries(TELESCOPES).flatMap(([name, meant]) =>
    listed(`start.word-${name}`, { kind: 'telescope', ...meant }),
  )
  const units = Object.entries(UNITS_MM).flatMap(([unit, mm]) => listed(`start.unit-${unit}`, { kind: 'unit', mm }))
  const counts = Array.from({ length: COUNTS }, (_, i) => i + 1).flatMap((count) =>
    listed(`start.count-${count}`, { kind: 'count', count }),
  )
  return new Map([
    ...listed('start.words-between', { kind: 'and' }),
    ...listed('start.words-filler', { kind: 'filler' }),
    ...telescopes,
    ...units,
    ...counts,
  ])
}
