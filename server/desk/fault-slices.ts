import type { FaultAnswer, FaultSeen, FaultStage } from '../tours/faults.ts'
import { findFaults } from '../tours/faults-rank.ts'
import { type FaultThings, faultThings, thingNamed } from '../tours/faults-things.ts'
import { placeOf } from '../tours/site.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds, WorkerStart } from './job-kinds.ts'
import type { Slices } from './job-slices.ts'

/** What an operator says: how far the setting up has come, on which stars, and what was seen of what; things by their keys. */
export interface FaultAsk {
  readonly stage: FaultStage
  readonly centredKeys: readonly string[]
  readonly aimedKey: string
  readonly seen: FaultSeen
}

/** What can be aimed at now, and the causes; null without a question, and for one about things that are not up. */
export interface FaultFinding {
  readonly things: FaultThings
  readonly answer: FaultAnswer | null
}

/** Weighs the causes of a miss, in one slice. */
export function* faultSlices(
  { night, own, targetKeys, at, ask, ...known }: JobKinds['faults']['asked'],
  { stars }: Pick<WorkerStart, 'stars'>,
  evenings: EveningShelf,
): Slices<FaultFinding> {
  const place = placeOf(night.site)
  const things = faultThings({ stars, objects: evenings.withOwn(own).objects, targetKeys }, at, place)
  const named = (keys: readonly string[]) => keys.flatMap((key) => thingNamed(things, key) ?? [])
  const [aimed] = named(ask === null ? [] : [ask.aimedKey])
  const centred = named(ask?.centredKeys ?? [])
  if (ask === null || !aimed || centred.length < ask.centredKeys.length) return { things, answer: null }
  const { stage, seen } = ask
  const lights = [...things.bodies, ...things.stars]
  const { zone } = night.site
  return { things, answer: findFaults({ ...known, at, place, zone, stage, centred, aimed, seen, lights }) }
}
