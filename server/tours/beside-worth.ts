import type { Offer } from './beside-choice.ts'
import type { Pointer } from './beside-pointers.ts'
import type { ShowObject } from './target.ts'

// Choices, all of them: what pleases people who look up without any glass.
const MOON = 0.9
const PLANET = 0.75
const PATTERN = 0.3 // more than its appeal, which is that in a telescope
const STAR_DULL = 0.2
const STAR_BRILLIANT = 0.45
const BRILLIANT_MAG = -0.5
const DULL_MAG = 2.5
const SHOWN_NOW = 0.5
const LEADS_THERE = 0.2

/** What a sight is worth to a crowd with bare eyes: more where it leads to what a telescope shows now. */
export function worthToEyes({ sight, seen }: Offer, pointer: Pointer | null): number {
  const lead = pointer === null ? 0 : pointer.isSame ? SHOWN_NOW : LEADS_THERE
  return seen.chance * (delight(sight.object, seen.view) + lead)
}

function delight(object: ShowObject, view: number): number {
  const { kind, magnitude, appeal } = object
  if (kind === 'moon') return MOON
  if (kind === 'planet') return PLANET
  if (kind === 'star' || kind === 'red-star' || kind === 'double') return starDelight(magnitude ?? DULL_MAG)
  if (kind === 'asterism') return view * (PATTERN + appeal)
  return view * appeal
}

function starDelight(magnitude: number): number {
  const share = Math.min(1, Math.max(0, (DULL_MAG - magnitude) / (DULL_MAG - BRILLIANT_MAG)))
  return STAR_DULL + share * (STAR_BRILLIANT - STAR_DULL)
}

/** What a sight is worth through binoculars: chance, view and appeal. */
export const worthInBinoculars = ({ sight, seen }: Offer): number => seen.chance * seen.view * sight.object.appeal
