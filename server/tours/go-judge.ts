import type { GoLimits, LimitName } from './go-limits.ts'

/** What can be entered of the weather. Rain and thunder are 1 for yes, 0 for no; the others are in the units of the limits. */
export const READING_KINDS = ['cloud', 'wind', 'gust', 'air', 'temperature', 'rain', 'thunder'] as const
export type ReadingKind = (typeof READING_KINDS)[number]

/** Values of one moment, those that were entered. */
export type GoValues = Readonly<Partial<Record<ReadingKind, number>>>

export type GoActor = 'host' | 'host-phone'

export interface GoReading {
  readonly kind: ReadingKind
  readonly value: number
  readonly enteredAt: Date
  readonly enteredBy: GoActor
}

export const GO_STATES = ['on', 'doubtful', 'off'] as const
export type GoState = (typeof GO_STATES)[number]

type Standing = 'fine' | 'doubtful' | 'over'

/** The last value of one kind, and how it stands to the host's limit; null where none was entered. */
export interface Judged {
  readonly kind: ReadingKind
  readonly known: { readonly reading: GoReading; readonly standing: Standing } | null
}

/** Which of the two limits of cloud holds. */
export type CloudLimit = Extract<LimitName, 'cloud' | 'moonCloud'>

/** Every kind with its last value judged; `readings` may be in any order, and of two at one instant the later in the list counts. */
export const judgedReadings = (
  limits: GoLimits,
  cloudLimit: CloudLimit,
  readings: readonly GoReading[],
): readonly Judged[] =>
  READING_KINDS.map((kind) => {
    const reading = readings.filter((it) => it.kind === kind).reduce<GoReading | null>(laterOf, null)
    return { kind, known: reading && { reading, standing: standingOf(limits, cloudLimit, reading) } }
  })

const laterOf = (last: GoReading | null, reading: GoReading): GoReading =>
  last !== null && last.enteredAt > reading.enteredAt ? last : reading

/** A value that lies on a limit has reached it. */
export function standingOf(
  limits: GoLimits,
  cloudLimit: CloudLimit,
  { kind, value }: Pick<GoReading, 'kind' | 'value'>,
): Standing {
  if (kind === 'thunder') return value > 0 ? 'over' : 'fine'
  if (kind === 'rain') return value === 0 ? 'fine' : limits.rain === 'off' ? 'over' : 'doubtful'
  const { doubtful, off } = limits[kind === 'cloud' ? cloudLimit : kind]
  const isPast = (limit: number): boolean => (kind === 'temperature' ? value <= limit : value >= limit)
  if (isPast(off)) return 'over'
  return isPast(doubtful) ? 'doubtful' : 'fine'
}

/** What the values speak for: a state with the kinds that decide it, or that too little is known. */
export interface Proposal {
  readonly state: GoState | 'unknown'
  readonly because: readonly ReadingKind[]
  /** Kinds of which nothing was entered. */
  readonly missing: readonly ReadingKind[]
}

/** Without these nobody can say that a night is on. */
const NEEDED: readonly ReadingKind[] = ['cloud', 'wind']

/** The worst value decides; what was not entered is never taken for fine. */
export function proposalOf(judged: readonly Judged[]): Proposal {
  const kindsAt = (standing: Standing) =>
    judged.flatMap(({ kind, known }) => (known?.standing === standing ? [kind] : []))
  const missing = judged.flatMap(({ kind, known }) => (known === null ? [kind] : []))
  const [over, doubtful] = [kindsAt('over'), kindsAt('doubtful')]
  if (over.length > 0) return { state: 'off', because: over, missing }
  if (doubtful.length > 0) return { state: 'doubtful', because: doubtful, missing }
  const lacking = NEEDED.filter((kind) => missing.includes(kind))
  if (lacking.length > 0) return { state: 'unknown', because: lacking, missing }
  return { state: 'on', because: kindsAt('fine'), missing }
}
