import type { FaultAsk } from '../../desk/fault-slices.ts'
import type { Problem } from '../../errors.ts'
import { FAULT_STAGES, type FaultSeen } from '../../tours/faults.ts'

/** What was typed into the finder of faults, by field. */
type FaultValues = Readonly<Record<string, string>>

/** The question that a form asks, or what is wrong with it; neither for one that was not sent. */
interface AskedFault {
  readonly ask: FaultAsk | null
  readonly problems: readonly Problem[]
}

// Common practice, no source: how well people measure against the sky, by degrees in a finder or by fists.
const DEGREES = { size: 1, leastNoiseDeg: 0.5, share: 0.1 } as const
const FISTS = { size: 10, leastNoiseDeg: 2.5, share: 0.15 } as const
const MOST_DEG = 180
const STARS_OF = { before: 0, one: 1, both: 2 } as const

export function faultAsked(values: FaultValues): AskedFault {
  const stage = FAULT_STAGES.find((one) => one === values.stage)
  if (Object.keys(values).length === 0) return { ask: null, problems: [] }
  const centredKeys = [values.first ?? '', values.second ?? ''].slice(0, STARS_OF[stage ?? 'before'])
  const aimedKey = values.aimed ?? ''
  const seen = seenOf(values)
  const problems = [
    ...(stage ? [] : [problem('stage', 'faults.needs-stage')]),
    ...starProblems(centredKeys),
    ...aimProblems(aimedKey, centredKeys),
    ...('key' in seen ? [seen] : []),
  ]
  if (problems.length > 0 || !stage || 'key' in seen) return { ask: null, problems }
  return { ask: { stage, centredKeys, aimedKey, seen }, problems }
}

const problem = (field: string, key: string): Problem => ({ field, key })

function starProblems(keys: readonly string[]): readonly Problem[] {
  const missing = ['first', 'second'].filter((_, index) => keys[index] === '')
  if (missing.length > 0) return missing.map((field) => problem(field, 'faults.needs-star'))
  return keys.length === 2 && keys[0] === keys[1] ? [problem('second', 'faults.needs-two')] : []
}

function aimProblems(aimedKey: string, centredKeys: readonly string[]): readonly Problem[] {
  if (aimedKey === '') return [problem('aimed', 'faults.needs-aim')]
  return centredKeys.includes(aimedKey) ? [problem('aimed', 'faults.needs-other')] : []
}

function seenOf(values: FaultValues): FaultSeen | Problem {
  const { seen: kind, unit } = values
  if (kind === 'lost' || kind === 'refused' || kind === 'finder') return { kind }
  if (kind !== 'off') return problem('seen', 'faults.needs-seen')
  const measure = unit === 'fists' ? FISTS : DEGREES
  const [side, height] = [numberOf(values.side), numberOf(values.height)]
  const isWrong = [side, height].some((size) => !(size >= 0 && size * measure.size <= MOST_DEG))
  if (isWrong) return problem('side', 'faults.needs-number')
  if (side === 0 && height === 0) return problem('side', 'faults.needs-miss')
  const rightDeg = side * measure.size * (values.sideway === 'right' ? 1 : -1)
  const upDeg = height * measure.size * (values.heightway === 'lower' ? -1 : 1)
  const noiseDeg = Math.max(measure.leastNoiseDeg, measure.share * Math.hypot(rightDeg, upDeg))
  return { kind, rightDeg, upDeg, noiseDeg }
}

/** A number as people type it, with a point or a comma; nothing is none. */
const numberOf = (text = ''): number => Number(text.trim().replace(',', '.'))
