/** What is done from the arrival to the last walk over the field. */
const SET_UP_STEPS = [
  'arrive',
  'level',
  'balance',
  'finder',
  'sunset',
  'align',
  'check',
  'welcome',
  'first',
  'last',
  'sweep',
] as const
type SetUpStep = (typeof SET_UP_STEPS)[number]

export interface SetUpTime {
  readonly step: SetUpStep
  readonly at: Date
}

export interface SetUpEvening {
  readonly sunsetAt: Date | null
  /** From when two stars can be centred; null where none come out. */
  readonly starsFromAt: Date | null
  readonly opensAt: Date
  readonly closesAt: Date
}

const MINUTE_MS = 60_000
// Minutes; the trade's usual ones. Whoever opens long after sunset need not come before it.
const ARRIVE_BEFORE_SUNSET = 90
const ARRIVE_BEFORE_OPENING = 180
const LEAST_BEFORE_OPENING = 60
const AFTER_ARRIVAL = { level: 15, balance: 30, finder: 45 } as const
const CHECK_AFTER_ALIGNING = 15
const WELCOME_BEFORE = 10
const LAST_BEFORE = 10
const SWEEP_AFTER = 30

/** The steps of the evening in the order of their times; without a sunset there is none, and without stars nothing to align on. */
export function setUpTimes({ sunsetAt, starsFromAt, opensAt, closesAt }: SetUpEvening): readonly SetUpTime[] {
  const minutesFrom = (at: Date, minutes: number): Date => new Date(at.getTime() + minutes * MINUTE_MS)
  const arriveAt = arrival(sunsetAt, opensAt)
  const finderAt = minutesFrom(arriveAt, AFTER_ARRIVAL.finder)
  const alignAt = starsFromAt && new Date(Math.max(starsFromAt.getTime(), finderAt.getTime()))
  const isSunsetMet = sunsetAt !== null && sunsetAt >= arriveAt
  const times: readonly SetUpTime[] = [
    { step: 'arrive', at: arriveAt },
    { step: 'level', at: minutesFrom(arriveAt, AFTER_ARRIVAL.level) },
    { step: 'balance', at: minutesFrom(arriveAt, AFTER_ARRIVAL.balance) },
    { step: 'finder', at: finderAt },
    ...(isSunsetMet ? [{ step: 'sunset', at: sunsetAt } as const] : []),
    ...(alignAt === null ? [] : [{ step: 'align', at: alignAt } as const]),
    ...(alignAt === null ? [] : [{ step: 'check', at: minutesFrom(alignAt, CHECK_AFTER_ALIGNING) } as const]),
    { step: 'welcome', at: minutesFrom(opensAt, -WELCOME_BEFORE) },
    { step: 'first', at: opensAt },
    { step: 'last', at: minutesFrom(closesAt, -LAST_BEFORE) },
    { step: 'sweep', at: minutesFrom(closesAt, SWEEP_AFTER) },
  ]
  return times.toSorted((a, b) => a.at.getTime() - b.at.getTime())
}

function arrival(sunsetAt: Date | null, opensAt: Date): Date {
  const opensMs = opensAt.getTime()
  const early = opensMs - ARRIVE_BEFORE_OPENING * MINUTE_MS
  const bySun = sunsetAt === null ? early : sunsetAt.getTime() - ARRIVE_BEFORE_SUNSET * MINUTE_MS
  return new Date(Math.min(opensMs - LEAST_BEFORE_OPENING * MINUTE_MS, Math.max(bySun, early)))
}
