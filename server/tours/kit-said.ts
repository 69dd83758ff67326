import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { type KitItem, kitItems } from './kit-items.ts'
import type { Design, KitWords } from './kit-words.ts'
import { schemaProblems } from './schema-problems.ts'
import { type MountKind, TubeDraft } from './telescope.ts'

/** One telescope as it was said; null for what was not. */
export interface SaidTelescope {
  readonly apertureMm: number
  readonly focalLengthMm: number | null
  readonly design: Design | null
  readonly mount: MountKind | null
}

/** The telescopes of a sentence, each as often as it was said, and what could not be taken of it. */
interface KitSaid {
  readonly telescopes: readonly SaidTelescope[]
  readonly problems: readonly Problem[]
}

const MOST_TELESCOPES = 12
const LONGEST_TEXT = 300
const LONGEST_WORD = 40

/** Reads telescopes said in plain words, such as "two 130 mm telescopes"; problems are those of the field `kit`. */
export function kitSaid(text: string, words: KitWords): KitSaid {
  if (text.length > LONGEST_TEXT) return refused('kit-long', { maximum: LONGEST_TEXT })
  const { items, unknown } = kitItems(text, words)
  const [word] = unknown
  if (word !== undefined) return refused('kit-word', { word: word.slice(0, LONGEST_WORD) })
  const total = items.reduce((sum, { count }) => sum + (count ?? 1), 0)
  if (total === 0) return refused('kit-none')
  const problems = items.flatMap(itemProblems)
  if (problems.length > 0) return { telescopes: [], problems }
  if (total > MOST_TELESCOPES) return refused('kit-many', { count: total, maximum: MOST_TELESCOPES })
  return { telescopes: items.flatMap(telescopesOf), problems: [] }
}

const problem = (key: string, values: Problem['values'] = {}): Problem => ({
  field: 'kit',
  key: `problem.${key}`,
  values,
})

const refused = (key: string, values: Problem['values'] = {}): KitSaid => ({
  telescopes: [],
  problems: [problem(key, values)],
})

const { apertureMm: WIDTH, focalLengthMm: FOCAL } = TubeDraft.properties

function itemProblems(item: KitItem): Problem[] {
  const { said, apertureMm } = item
  if (apertureMm === null) return [problem('kit-width', { said })]
  const [tooWide] = schemaProblems(Value.Errors(WIDTH, apertureMm), WIDTH)
  if (tooWide) return [problem('kit-range', { ...tooWide.values, said })]
  const focalMm = focalOf(item)
  const [tooLong] = focalMm === null ? [] : schemaProblems(Value.Errors(FOCAL, focalMm), FOCAL)
  return tooLong ? [problem('kit-focal', { ...tooLong.values, said })] : []
}

const focalOf = ({ focalLengthMm, ratio, apertureMm }: KitItem): number | null =>
  focalLengthMm ?? (ratio === null || apertureMm === null ? null : Math.round(ratio * apertureMm))

function telescopesOf(item: KitItem): SaidTelescope[] {
  const { count, apertureMm, design, mount } = item
  if (apertureMm === null) return []
  const one = { apertureMm, focalLengthMm: focalOf(item), design, mount }
  return Array.from({ length: count ?? 1 }, () => one)
}
