import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import type { Grid } from './grid.ts'
import { gridOf } from './grid-make.ts'
import { nightHours } from './hours.ts'
import { type Barred, longestBar } from './missing-barred.ts'
import { showpiecesOf } from './missing-showpieces.ts'
import type { Night } from './night.ts'
import { findingsOf, type TonightInput } from './object-tonight.ts'
import { type Findings, verdictOf } from './object-verdict.ts'
import { stepAt, targetAtStep } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Tour } from './tour.ts'
import type { Wish } from './wish.ts'

/** A showpiece that is not on the programme, and why. */
export interface Missing {
  readonly targetKey: string
  readonly name: string
  /** The longest time in which no telescope of the row can be turned to it; null when one always can. */
  readonly barred: Barred | null
  /** Why it is not shown in the rest of the time, or how high it comes where there is none. */
  readonly reason: Remark
}

export interface MissingInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly tour: Pick<Tour, 'stops' | 'spares'>
  readonly wishes?: readonly Wish[]
}

/** Asks for every showpiece of the night that is missing from the programme why, one at a time, so that a caller may do something else in between; [] for a row without a telescope. */
export function* missingShowpieces(input: MissingInput): Generator<undefined, readonly Missing[]> {
  const { night, sky, chance, objects, tour } = input
  if (chance.stationIds.length === 0) return []
  const shown = new Set(tour.stops.map(({ targetKey }) => targetKey))
  const off = showpiecesOf(night, sky, objects).filter(({ key }) => !shown.has(key))
  const missing: Missing[] = []
  for (const object of off) {
    yield
    missing.push(isBarred(input, object) ? byHost(object) : missingOf({ ...input, object, at: null }, shown))
  }
  return missing
}

/** True for a thing that the host wants nowhere, all evening. */
const isBarred = ({ wishes = [] }: MissingInput, { key }: ShowObject): boolean =>
  wishes.some(
    ({ kind, targetKey, stationId, startsAt }) =>
      kind === 'bar' && targetKey === key && stationId === null && startsAt === null,
  )

const byHost = ({ key, name }: ShowObject): Missing => ({
  targetKey: key,
  name,
  barred: null,
  reason: { code: 'missing.by-host' },
})

function missingOf(input: TonightInput & MissingInput, shown: ReadonlySet<string>): Missing {
  const { object } = input
  const findings = findingsOf(input, () => smallGrid(input, shown))
  const verdict = verdictOf(input, findings)
  const barred = longestBar(input, findings.targetIndex)
  return { targetKey: object.key, name: object.name, barred, reason: reasonOf(input, findings, verdict) }
}

/** The quarter hours with nothing but the object and what is shown: of those no cell hangs on what else there is. */
function smallGrid(input: TonightInput, shown: ReadonlySet<string>): Grid {
  const { object } = input
  return gridOf({ ...input, objects: input.objects.filter(({ key }) => key === object.key || shown.has(key)) })
}

/** The verdict on the object in one remark that goes on after its name and a colon, with its numbers. */
function reasonOf(input: TonightInput, findings: Findings, [first, second]: readonly Remark[]): Remark {
  const code = wordOf(first, 'unknown')
  const values = first?.values ?? {}
  if (code === 'outdone') return { code: `missing.${wordOf(second, 'more-calm')}`, values }
  if (code === 'spare') return { code: 'missing.spare', values }
  if (code === 'faint' || code === 'seldom') return { code: `missing.${code}`, values: { newcomers: bestOf(findings) } }
  if (code === 'brief') return { code: 'missing.brief', values: { count: openMinutes(findings) } }
  if (code === 'left-over' || code === 'unknown') return { code: `missing.${code}` }
  return { code: 'missing.highest', values: { degrees: highestDeg(input, findings.targetIndex) } }
}

/** The code of a remark without its group. */
const wordOf = (remark: Remark | undefined, otherwise: string): string => remark?.code.split('.')[1] ?? otherwise

/** Of a hundred newcomers those who see it at its best, at the telescope that shows it best. */
const bestOf = ({ stations }: Findings): number =>
  Math.round(100 * Math.max(0, ...stations.map(({ sighting }) => sighting.chance)))

const openMinutes = ({ clear }: Findings): number =>
  Math.max(0, ...clear.map(({ fromAt, untilAt }) => Math.round((untilAt.getTime() - fromAt.getTime()) / 60_000)))

function highestDeg({ night, sky }: TonightInput, targetIndex: number): number {
  const { opensAt, closesAt } = nightHours(night)
  let highest = 0
  for (let step = stepAt(sky, opensAt); step <= stepAt(sky, closesAt); step++) {
    highest = Math.max(highest, targetAtStep(sky, targetIndex, step).altitudeDeg)
  }
  return Math.round(highest)
}
