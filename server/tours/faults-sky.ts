import type { Horizontal } from '../sky/horizontal.ts'
import { type GroundSky, groundSky, overGround } from '../sky/over-ground.ts'
import type { Place } from '../sky/place.ts'
import { seenFrom } from './alignment-lights.ts'
import type { FaultQuestion, FaultThing, Miss } from './faults.ts'
import type { Mistake } from './faults-mistakes.ts'
import { missOf, pointsAt } from './faults-mount.ts'

/** Where things are seen at any instant over any place, the air's lift in it; each instant's sky made once. */
export type FaultSky = (thing: FaultThing, at: Date, place: Place) => Horizontal

export function faultSky(): FaultSky {
  const skies = new Map<number, GroundSky>()
  const vectors = new Map<string, ReturnType<GroundSky['vectorOf']>>()
  return (thing, at, place) => {
    const ms = at.getTime()
    const sky = skies.get(ms) ?? groundSky(at)
    skies.set(ms, sky)
    const name = `${ms} ${thing.key}`
    const vector = vectors.get(name) ?? sky.vectorOf(thing.place)
    vectors.set(name, vector)
    return seenFrom(overGround(vector, sky.siderealDeg, place))
  }
}

export interface Missed {
  readonly miss: Miss
  /** Where the mount believes that the thing stands. */
  readonly believedAltitudeDeg: number
}

/** What is missed by when a mount is sent to a thing after a mistake. */
export function missAfter(sky: FaultSky, question: FaultQuestion, mistake: Mistake, thing: FaultThing): Missed {
  const { at, place, stage, centred } = question
  const aimedBelieved = sky(thing, mistake.at, mistake.place)
  const tube = pointsAt({
    stage,
    stand: mistake.stand,
    keeps: mistake.keeps,
    centred: centred.map((star, index) => ({
      believed: sky(star, mistake.at, mistake.place),
      truly: sky(mistake.centred[index] ?? star, at, place),
    })),
    aimedBelieved,
  })
  return { miss: missOf(sky(thing, at, place), tube), believedAltitudeDeg: aimedBelieved.altitudeDeg }
}
