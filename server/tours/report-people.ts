import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night } from './night.ts'
import { countOf, type Heads, peopleAt } from './visitors.ts'

/** The people of a night as they were counted at the gate. */
export interface ReportPeople {
  readonly isCounted: boolean
  readonly came: Heads
  readonly left: Heads
  /** Those who had not been counted out: came less left. */
  readonly stayed: Heads
  /** The most that were on the field at once, and when they first were; null where nobody counted. */
  readonly peak: (Heads & { readonly people: number; readonly at: Date }) | null
}

interface Count extends Heads {
  readonly at: Date
}

const NOBODY: Heads = { adults: 0, children: 0 }
const plus = (a: Heads, b: Heads): Heads => ({ adults: a.adults + b.adults, children: a.children + b.children })

/** The counts at the gate, oldest first, less what would leave fewer than nobody there. */
export function countsOf(acts: readonly Mark[]): readonly Count[] {
  let here = NOBODY
  return acts.flatMap((mark) => {
    const counted = payloadOf('counted', mark)
    if (counted === null) return []
    const change = {
      adults: Math.max(counted.adults, -here.adults),
      children: Math.max(counted.children, -here.children),
    }
    here = plus(here, change)
    return [{ ...change, at: mark.happenedAt }]
  })
}

const FIRST: ReportPeople = { isCounted: false, came: NOBODY, left: NOBODY, stayed: NOBODY, peak: null }

/** Who came, who left, and the most at once. */
export const reportPeople = (counts: readonly Count[]): ReportPeople =>
  counts.reduce(({ came, left, stayed, peak }, { at, adults, children }) => {
    const here = plus(stayed, { adults, children })
    return {
      isCounted: true,
      came: plus(came, { adults: Math.max(0, adults), children: Math.max(0, children) }),
      left: plus(left, { adults: Math.max(0, -adults), children: Math.max(0, -children) }),
      stayed: here,
      peak: countOf(here) > (peak?.people ?? 0) ? { ...here, people: countOf(here), at } : peak,
    }
  }, FIRST)

/** The people on the field at an instant: as counted up to then, else as the night's table expects. */
export function peopleThen(night: Night, counts: readonly Count[], at: Date): Heads {
  const until = counts.filter((count) => count.at <= at)
  if (until.length === 0) {
    const { adults, children } = peopleAt(night, at)
    return { adults, children }
  }
  return until.reduce<Heads>(plus, NOBODY)
}
