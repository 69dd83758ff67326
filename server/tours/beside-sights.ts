import { type ChanceAndView, type Prepared, prepare } from '../sight/sighting.ts'
import type { Subject } from '../sight/subject.ts'
import { clamp } from '../sky/angles.ts'
import type { Aid } from './beside-aids.ts'
import { bandPieces, eyeSightSubject } from './beside-glows.ts'
import { meteorSeen, meteorsPerHour, showerShare, WATCHED_DEG } from './beside-meteors.ts'
import { wideWhyNot } from './beside-pattern.ts'
import { type ClearSpan, clearSpans } from './clear-spans.ts'
import { type EveningSky, eveningSky } from './evening.ts'
import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { type WhyNot, whyNotOf } from './offered.ts'
import { geometryAtStep, geometryOfPlace, stepAt, targetAtStep } from './sky-at.ts'
import { subjectOf } from './subject.ts'
import type { ObjectKind, ShowObject } from './target.ts'
import type { Cause } from './tour.ts'

/** A thing that is seen with an aid at some time of the public hours. */
export interface Sight {
  readonly object: ShowObject
  /** The sky that holds it, and its row there. */
  readonly sky: EveningSky
  readonly targetIndex: number
  /** When it is clear and seen by as many newcomers as the aid asks for. */
  readonly spans: readonly ClearSpan[]
  readonly seenAt: (at: Date) => ChanceAndView
}

interface SightsInput {
  readonly night: Night
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
}

/** A thing as it is asked about: what it is to the sight floor, in which sky. */
interface Thing {
  readonly object: ShowObject
  readonly sky: EveningSky
  readonly targetIndex: number
  readonly seen: (step: number) => ChanceAndView
}

/** Narrower things are taken for points. */
const WIDE_DEG = 1.5
const AT_A_TIME = 12

const BY_EYES: readonly ObjectKind[] = ['double', 'star', 'red-star']

/** What bare eyes see at some time of the night, in the order of the list. */
export function* sightsForEyes(input: SightsInput, aid: Aid): Generator<undefined, readonly Sight[]> {
  const subject = (object: ShowObject): Subject | null =>
    BY_EYES.includes(object.kind) ? pointOf(object) : (eyeSightSubject(object) ?? subjectOf(object, input.sky))
  const things = [...listed(input, aid, subject), ...showers(input, aid)]
  yield
  return yield* seenOf(input, aid, [...things, ...bandThings(input, aid)])
}

/** The same through binoculars; a single star shows nothing there but its colour. */
export function* sightsForBinoculars(input: SightsInput, aid: Aid): Generator<undefined, readonly Sight[]> {
  const subject = (object: ShowObject): Subject | null =>
    object.kind === 'star' ? null : (eyeSightSubject(object) ?? subjectOf(object, input.sky))
  const things = listed(input, aid, subject)
  yield
  return yield* seenOf(input, aid, [...things, ...bandThings(input, aid)])
}

/** Stars close together are one star to bare eyes. */
const pointOf = ({ magnitude, bv }: ShowObject): Subject | null =>
  magnitude === null ? null : { kind: 'star', magnitude, bv, isRed: false }

function listed({ sky, objects }: SightsInput, aid: Aid, subject: (object: ShowObject) => Subject | null): Thing[] {
  return objects.flatMap((object) => {
    const [targetIndex, it] = [sky.targetKeys.indexOf(object.key), subject(object)]
    return targetIndex < 0 || it === null ? [] : [thingOf({ object, sky, targetIndex }, it, aid)]
  })
}

function bandThings({ night, objects }: SightsInput, aid: Aid): Thing[] {
  const pieces = bandPieces(objects)
  if (pieces.length === 0) return []
  const sky = eveningSky(
    night,
    pieces.map(({ object }) => object),
  )
  return pieces.map(({ object, subject }, targetIndex) => thingOf({ object, sky, targetIndex }, subject, aid))
}

function showers({ night, sky, objects }: SightsInput, aid: Aid): Thing[] {
  const { opensAt } = nightHours(night)
  return objects.flatMap((object) => {
    const targetIndex = sky.targetKeys.indexOf(object.key)
    const { shower } = object
    const rate = shower === null ? 0 : shower.zhr * showerShare(shower, opensAt)
    if (targetIndex < 0 || rate === 0) return []
    const seen = (step: number) => {
      const { altitudeDeg, azimuthDeg } = targetAtStep(sky, targetIndex, step)
      const watched = geometryOfPlace(sky, { altitudeDeg: WATCHED_DEG, azimuthDeg }, step)
      return meteorSeen(meteorsPerHour(rate, altitudeDeg, watched, aid))
    }
    return [{ object, sky, targetIndex, seen }]
  })
}

function thingOf(place: Omit<Thing, 'seen'>, subject: Subject, { view, conditions }: Aid): Thing {
  const ask: Prepared = prepare(subject, view, conditions)
  return { ...place, seen: (step) => ask(geometryAtStep(place.sky, place.targetIndex, step)) }
}

function* seenOf({ night }: SightsInput, aid: Aid, things: readonly Thing[]): Generator<undefined, readonly Sight[]> {
  const sights: Sight[] = []
  for (const [i, thing] of things.entries()) {
    if (i % AT_A_TIME === 0) yield
    const sight = sightOf(night, aid, thing)
    if (sight.spans.length > 0) sights.push(sight)
  }
  return sights
}

function sightOf(night: Night, aid: Aid, { object, sky, targetIndex, seen }: Thing): Sight {
  const known = new Map<number, ChanceAndView>()
  const seenAtStep = (step: number): ChanceAndView => {
    const whole = clamp(Math.round(step), 0, sky.count - 1)
    const answer = known.get(whole) ?? seen(whole)
    known.set(whole, answer)
    return answer
  }
  const { opensAt, closesAt } = nightHours(night)
  const gate = gateOf(night, aid, { object, sky, targetIndex })
  const whyNot = Object.assign(
    (step: number): Cause | null =>
      gate(step) ?? (seenAtStep(step).chance < aid.leastChance ? { code: 'faint' } : null),
    { watched: gate.watched },
  )
  const spans = clearSpans(sky, whyNot, opensAt, closesAt)
  return { object, sky, targetIndex, spans, seenAt: (at) => seenAtStep(stepAt(sky, at)) }
}

function gateOf({ site }: Night, { reach }: Aid, { object, sky, targetIndex }: Omit<Thing, 'seen'>): WhyNot {
  const gate = { sky, site, mount: reach }
  const radiusDeg = radiusOf(object)
  return radiusDeg < WIDE_DEG ? whyNotOf(gate, targetIndex) : wideWhyNot(gate, targetIndex, radiusDeg)
}

/** Half the width of a thing in degrees, as far as all of it must be in the open. */
const radiusOf = ({ kind, fieldDeg, majorArcmin }: ShowObject): number =>
  kind === 'asterism' || kind === 'bare-eye' ? (fieldDeg ?? 0) / 2 : (majorArcmin ?? 0) / 120
