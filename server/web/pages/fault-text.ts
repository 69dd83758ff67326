import type { FaultAsk, FaultFinding } from '../../desk/fault-slices.ts'
import type { Miss, NamedFault } from '../../tours/faults.ts'
import type { Words } from '../../words/words.ts'

interface FaultCauseText {
  readonly title: string
  readonly likely: string
  /** What this cause would make of the thing; null where only its kind was seen. */
  readonly miss: string | null
  readonly check: string
}

export interface FaultAnswerText {
  readonly title: string
  readonly asked: string
  /** That none, or several, explain it; null for one that stands alone. */
  readonly note: string | null
  readonly causes: readonly FaultCauseText[]
  readonly others: readonly FaultCauseText[]
  readonly othersLabel: string
  readonly nextLabel: string
  /** What to look at, and what each cause would make of it; [] where nothing is to be told apart. */
  readonly next: readonly string[]
  /** What two centred stars hide; null before that. */
  readonly hidden: string | null
}

const ALMOST_SURE = 0.9
const LIKELY = 0.5
const HALF_DEG_BELOW = 10
const NOTHING_DEG = 0.25
const ELSEWHERE_DEG = 60

/** The causes in words: first those that what was seen points to, then the rest. */
export function faultAnswerText(words: Words, ask: FaultAsk, { things, answer }: FaultFinding): FaultAnswerText | null {
  if (answer === null) return null
  const { causes, next } = answer
  const tied = causes.filter(({ isTied }) => isTied)
  const first = tied.length > 0 ? tied : causes.slice(0, 1)
  const text = (fault: NamedFault) => causeText(words, ask, fault)
  const aimed = [...things.bodies, ...things.stars, ...things.targets].find(({ key }) => key === ask.aimedKey)
  return {
    title: words.say('faults.answer'),
    asked: words.say(`faults.asked-${ask.stage}`, { name: aimed?.name ?? ask.aimedKey }),
    note: noteText(words, ask, first.length),
    causes: first.map(text),
    others: causes.filter((fault) => !first.includes(fault)).map(text),
    othersLabel: words.say('faults.others'),
    nextLabel: words.say('faults.next'),
    next: tied.length === 0 ? [] : nextTexts(words, next),
    hidden: ask.stage === 'both' ? words.say('faults.hidden') : null,
  }
}

function noteText(words: Words, { seen }: FaultAsk, count: number): string | null {
  if (count === 0) return words.say(seen.kind === 'off' ? 'faults.none' : 'faults.none-said')
  return count === 1 ? null : words.say('faults.tied', { count })
}

function causeText(words: Words, { seen }: FaultAsk, { cause, miss, share }: NamedFault): FaultCauseText {
  return {
    title: words.say(`faults.cause-${cause}`),
    likely: words.say(share >= ALMOST_SURE ? 'faults.sure' : share >= LIKELY ? 'faults.likely' : 'faults.possible'),
    miss: seen.kind === 'off' ? words.say('faults.would', { miss: missText(words, miss) }) : null,
    check: words.say(`faults.check-${cause}`),
  }
}

function nextTexts(words: Words, next: NonNullable<FaultFinding['answer']>['next']): readonly string[] {
  if (next === null) return [words.say('faults.next-none')]
  return [
    words.say('faults.next-look', { name: next.thing.name }),
    ...next.misses.map(({ cause, miss }) =>
      words.say('faults.next-would', { cause: words.say(`faults.cause-${cause}`), miss: missText(words, miss) }),
    ),
  ]
}

/** `12 degrees to the right and 3 degrees higher`. */
export function missText(words: Words, { rightDeg, upDeg }: Miss): string {
  if (Math.hypot(rightDeg, upDeg) >= ELSEWHERE_DEG) return words.say('faults.miss-elsewhere')
  const parts = [
    ...(Math.abs(rightDeg) < NOTHING_DEG ? [] : [partText(words, rightDeg, rightDeg > 0 ? 'right' : 'left')]),
    ...(Math.abs(upDeg) < NOTHING_DEG ? [] : [partText(words, upDeg, upDeg > 0 ? 'higher' : 'lower')]),
  ]
  return parts.length === 0 ? words.say('faults.miss-nothing') : words.list(parts)
}

function partText(words: Words, sizeDeg: number, way: 'right' | 'left' | 'higher' | 'lower'): string {
  const size = Math.abs(sizeDeg)
  const count = size < HALF_DEG_BELOW ? Math.round(size * 2) / 2 : Math.round(size)
  return words.say(`faults.miss-${way}`, { degrees: words.number(count, Number.isInteger(count) ? 0 : 1) })
}
