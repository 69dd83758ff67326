import type { Aid } from './beside-aids.ts'
import { type Before, chosen, type Offer, offersIn, shareInFamily } from './beside-choice.ts'
import type { HalfHourSpan, SightLine } from './beside-lines.ts'
import { type Pointer, placeOfSight, pointerOf } from './beside-pointers.ts'
import { kindRemarks } from './beside-remarks.ts'
import { mainStopsIn } from './beside-shown.ts'
import type { Sight } from './beside-sights.ts'
import { worthInBinoculars, worthToEyes } from './beside-worth.ts'
import type { EveningSky } from './evening.ts'
import type { Night } from './night.ts'
import { pointingOf } from './pointing.ts'
import { ANYONE } from './rules.ts'
import type { ShowObject } from './target.ts'
import type { Stop } from './tour.ts'

interface SkyLinesInput {
  readonly night: Night
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
  readonly stops: readonly Stop[]
  readonly aid: Aid
  readonly sights: readonly Sight[]
  /** What stations of this kind showed before, by number of the half hour. */
  readonly before: Before
}

const TO_EYES = 3
const IN_BINOCULARS = 2
/** What is left of a second thing that leads to the same telescope's target (a choice). */
const TO_THE_SAME = 0.3

/** What a bare-eye guide points at in a half hour: at most three things. */
export function eyeLines(input: SkyLinesInput, half: HalfHourSpan, number: number): readonly SightLine[] {
  const offers = offersIn(input.sights, half)
  const pointers = new Map(offers.map((offer) => [offer, pointerIn(input, half, offer)]))
  const ledTo = (offer: Offer) => pointers.get(offer)?.targetKey
  const best = chosen(offers, {
    worthOf: (offer) => worthToEyes(offer, pointers.get(offer) ?? null),
    shareBeside: (one, other) =>
      ledTo(one) !== undefined && ledTo(one) === ledTo(other) ? TO_THE_SAME : shareInFamily(one, other),
    before: input.before,
    half: number,
    most: TO_EYES,
  })
  return best.map((offer) => lineOf(offer, input.aid, pointers.get(offer) ?? null))
}

/** What a pair of binoculars shows in a half hour: at most two things, first what anyone sees. */
export function binocularLines(input: SkyLinesInput, half: HalfHourSpan, number: number): readonly SightLine[] {
  const best = chosen(offersIn(input.sights, half), {
    worthOf: worthInBinoculars,
    shareBeside: shareInFamily,
    before: input.before,
    half: number,
    most: IN_BINOCULARS,
  })
  const easyFirst = best.toSorted((a, b) => Number(b.seen.chance >= ANYONE) - Number(a.seen.chance >= ANYONE))
  return easyFirst.map((offer) => lineOf(offer, input.aid, pointerIn(input, half, offer)))
}

function pointerIn({ night, sky, objects, stops }: SkyLinesInput, half: HalfHourSpan, offer: Offer): Pointer | null {
  const nameOf = (stationId: string) => night.stations.find(({ id }) => id === stationId)?.name ?? stationId
  return pointerOf(offer.sight, offer.fromAt, { sky, objects, nameOf, shown: mainStopsIn(stops, half) })
}

function lineOf(offer: Offer, aid: Aid, pointer: Pointer | null): SightLine {
  const { sight, span, fromAt, seen } = offer
  const place = placeOfSight(sight, fromAt)
  return {
    what: 'sight',
    targetKey: sight.object.key,
    fromAt,
    leave: span.after === null ? null : { at: span.untilAt, cause: span.after },
    ...seen,
    ...place,
    ...pointingOf(place),
    remarks: [...(pointer === null ? [] : [pointer.remark]), ...kindRemarks(offer, aid)],
  }
}
