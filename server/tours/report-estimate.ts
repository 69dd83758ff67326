import type { Night } from './night.ts'
import { type countsOf, peopleThen } from './report-people.ts'
import { sumOf } from './report-shares.ts'
import { countOf } from './visitors.ts'

/** How many visitors so many looks would make, and what that takes for granted. */
export interface VisitorEstimate {
  readonly looks: number
  readonly minutes: number
  /** On the field at any moment, on average. */
  readonly meanPeople: number
  readonly stayMin: number
  /** What one visitor gets in a stay when everybody there shares the eyepieces evenly. */
  readonly looksPerVisitor: number
  /** Looks divided by looks for each visitor. */
  readonly visitors: number
}

const STEP_MS = 5 * 60_000

/** The estimate over the time in which something was shown; null where nobody was there, or nothing was to be looked at. */
export function visitorEstimate(
  night: Night,
  counts: ReturnType<typeof countsOf>,
  looks: number,
  ran: { readonly fromAt: Date; readonly toAt: Date } | null,
): VisitorEstimate | null {
  if (ran === null || looks === 0) return null
  const meanPeople = meanOf(night, counts, ran.fromAt.getTime(), ran.toAt.getTime())
  const minutes = (ran.toAt.getTime() - ran.fromAt.getTime()) / 60_000
  const { stayMin } = night.settings
  if (meanPeople <= 0 || minutes <= 0) return null
  const looksPerVisitor = (looks * Math.min(stayMin, minutes)) / (minutes * meanPeople)
  return { looks, minutes, meanPeople, stayMin, looksPerVisitor, visitors: Math.round(looks / looksPerVisitor) }
}

/** Every five minutes, in the middle of them. */
function meanOf(night: Night, counts: ReturnType<typeof countsOf>, fromMs: number, toMs: number): number {
  const steps = Math.max(1, Math.ceil((toMs - fromMs) / STEP_MS))
  const each = Array.from({ length: steps }, (_, k) => new Date(fromMs + ((k + 0.5) * (toMs - fromMs)) / steps))
  return sumOf(each.map((at) => countOf(peopleThen(night, counts, at)))) / steps
}
