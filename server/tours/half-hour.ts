import type { Check, CheckGroup, CheckLine } from './check.ts'
import { type Asked, lineOf } from './check-line.ts'
import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import type { Mark } from './mark.ts'
import type { Night } from './night.ts'
import { stepAt } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Spare, Stop } from './tour.ts'

interface CheckInput {
  readonly night: Night
  readonly tour: { readonly stops: readonly Stop[]; readonly spares: readonly Spare[] }
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly objects: readonly ShowObject[]
  readonly at: Date
  /** The check before this one, for what changed since; null for the first. */
  readonly previousAt: Date | null
  /** What the field has told of clouds and of stations that left; without it nothing. */
  readonly marks?: readonly Mark[]
}

const GROUPS: readonly CheckGroup[] = ['good', 'going', 'gone', 'coming']
const NEVER_MIN = 100_000

/**
 * Every target of the programme and every spare at its station, in four groups, and what changed since the check before.
 * Throws for an instant that is not reckoned, more than an hour off the public hours.
 */
export function halfHourCheck(input: CheckInput): Check {
  const step = stepAt(input.sky, input.at)
  if (step < input.chance.from || step > input.chance.to) {
    throw new RangeError(`Nothing is reckoned for ${input.at.toISOString()} on this evening.`)
  }
  const asked = askedOf(input)
  const lines = asked.map((ask) => lineOf(input, ask, input.at))
  return { at: input.at, lines: [...lines].sort(inOrder), changes: changesOf(input, asked, lines) }
}

/** Good, going, gone, coming; the programme before the spares; what leaves first, first, but of good spares at each station the worthiest, as they come. */
const inOrder = (a: CheckLine, b: CheckLine): number =>
  GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) ||
  Number(a.isSpare) - Number(b.isSpare) ||
  leavingMin(a) - leavingMin(b)

const leavingMin = ({ isSpare, group, minutesLeft }: CheckLine): number =>
  isSpare && group === 'good' ? 0 : (minutesLeft ?? NEVER_MIN)

/** Every target once a station, stops before spares. */
function askedOf({ night, tour, sky }: CheckInput): readonly Asked[] {
  const stops = tour.stops.map((stop) => ({ ...stop, isSpare: false }))
  const spares = tour.spares.map((spare) => ({ ...spare, aim: 'whole' as const, isSpare: true }))
  const seen = new Set<string>()
  return [...stops, ...spares].flatMap(({ stationId, targetKey, aim, setups, isSpare }) => {
    const name = `${stationId} ${targetKey} ${aim}`
    const station = night.stations.find(({ id }) => id === stationId)
    const targetIndex = sky.targetKeys.indexOf(targetKey)
    if (seen.has(name) || !station?.telescope || targetIndex < 0) return []
    seen.add(name)
    return [{ station, telescope: station.telescope, targetKey, targetIndex, aim, setups, isSpare }]
  })
}

function changesOf(input: CheckInput, asked: readonly Asked[], lines: readonly CheckLine[]): readonly Remark[] {
  const { previousAt } = input
  if (previousAt === null) return []
  return asked.flatMap((ask, i) => {
    const group = lines[i]?.group
    if (group === undefined || lineOf(input, ask, previousAt).group === group) return []
    const name = input.objects.find(({ key }) => key === ask.targetKey)?.name ?? ask.targetKey
    return [{ code: `check.turned-${group}`, values: { name, station: ask.station.name } }]
  })
}
