import { type ClearSpan, clearSpans } from './clear-spans.ts'
import { type EveningSky, eveningSky } from './evening.ts'
import { type EveningChance, eveningChance, seenAtStep } from './evening-chance.ts'
import type { MonthNight } from './month-night.ts'
import { whyNotOf } from './offered.ts'
import { stepAt } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'

/** What one evening of a month shows of a thing. */
export interface InMonth {
  readonly key: string
  /** Chance that a newcomer sees it at the best quarter hour in the best telescope, 0 to 1; 0 where it is never clear for an hour. */
  readonly chance: number
  /** The telescope of the kit that shows it best; null where none does. */
  readonly telescopeId: string | null
  /** The hour or more in which it is clear then; null where there is none. */
  readonly clear: ClearSpan | null
  /** Clear for an hour, and half of the newcomers or more see it. */
  readonly isGood: boolean
}

const HOUR_MS = 3_600_000
const GOOD_CHANCE = 0.5

/** The evening's sky as if the Moon were down, for a month has nights with it and nights without. */
export function moonlessSky({ night }: MonthNight, objects: readonly ShowObject[]): EveningSky {
  const sky = eveningSky(night, objects)
  return { ...sky, moonAltitudeDeg: new Float32Array(sky.count).fill(-90) }
}

/** The chances under that sky. */
export const moonlessChance = (sky: EveningSky, { night }: MonthNight, objects: readonly ShowObject[]): EveningChance =>
  eveningChance(sky, night, objects)

/** What the evening shows of each of the objects, in their order, the best telescope of the kit first. */
export function* inMonth(
  month: MonthNight,
  sky: EveningSky,
  chance: EveningChance,
  objects: readonly ShowObject[],
): Generator<InMonth> {
  const columns = new Map(
    chance.candidates.flatMap(({ targetKey, aim }, i) => (aim === 'whole' ? [[targetKey, i]] : [])),
  )
  for (const { key, body } of objects) {
    const column = columns.get(key)
    const fromAt = body === null ? month.darkAt : month.opensAt
    if (column === undefined || fromAt === null) yield unseen(key)
    else yield seenAt({ month, sky, chance, column, fromAt }, key)
  }
}

/** Nothing to see of it in the month. */
export const unseen = (key: string): InMonth => ({ key, chance: 0, telescopeId: null, clear: null, isGood: false })

interface Asked {
  readonly month: MonthNight
  readonly sky: EveningSky
  readonly chance: EveningChance
  readonly column: number
  readonly fromAt: Date
}

function seenAt(asked: Asked, key: string): InMonth {
  const spansOf = spansByMount(asked)
  let best = unseen(key)
  for (const [row, { telescope }] of asked.month.night.stations.entries()) {
    const at = row * asked.chance.candidates.length + asked.column
    if (telescope === null || !asked.chance.setups[at]) continue
    for (const clear of spansOf(telescope)) {
      const chance = bestChance(asked, row, clear)
      if (best.clear !== null && chance <= best.chance) continue
      best = { key, chance, telescopeId: telescope.id, clear, isGood: chance >= GOOD_CHANCE }
    }
  }
  return best
}

/** The hours or more in which it is clear, reckoned once for mounts that reach alike. */
function spansByMount({ month, sky, chance, column, fromAt }: Asked): (mount: Telescope) => readonly ClearSpan[] {
  const kept = new Map<string, readonly ClearSpan[]>()
  const targetIndex = chance.candidates[column]?.targetIndex ?? 0
  return (mount) => {
    const reach = `${mount.floorDeg}/${mount.ceilingDeg}`
    const known = kept.get(reach)
    if (known) return known
    const whyNot = whyNotOf({ sky, site: month.night.site, mount }, targetIndex)
    const spans = clearSpans(sky, whyNot, fromAt, month.closesAt).filter(
      (span) => span.untilAt.getTime() - span.fromAt.getTime() >= HOUR_MS,
    )
    kept.set(reach, spans)
    return spans
  }
}

function bestChance({ month, sky, chance, column }: Asked, row: number, { fromAt, untilAt }: ClearSpan): number {
  const inside = month.quarters.filter((at) => at >= fromAt && at <= untilAt)
  return Math.max(0, ...inside.map((at) => seenAtStep(chance, row, column, Math.round(stepAt(sky, at))).chance))
}
