import { degrees, radians, separationDeg, wrap180, wrap360 } from '../../server/sky/angles.ts'
import { type Equatorial, starVector } from '../../server/sky/star.ts'
import { toSphere } from '../../server/sky/vectors.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import type { StarRow } from './rows.ts'

/** How the second star of a pair stands to the first: how far, and which way, from north through east. */
interface Apart {
  readonly arcsec: number
  readonly angleDeg: number
}

/** A double of the list beside what the places and motions of its two stars say for the same year. */
interface PairCheck {
  readonly key: string
  readonly name: string
  readonly hips: readonly [number, number]
  readonly year: number
  readonly entered: Apart
  readonly computed: Apart
  /** True when both agree, or when the row's note says that the pair has turned or is in orbit, with a year. */
  readonly isFine: boolean
}

type Two = readonly [StarRow, StarRow]

const ALLOWED = { arcsec: 1.5, share: 0.05, angleDeg: 3 }
/** How far from the place, and how much unlike the entered values, a companion may be that no designation names. */
const UNNAMED = { arcsec: 700, magnitudes: 0.35, times: 3 }
/** A named one may be the other half of a quadruple: then its light is far from what the row says of the companion. */
const NAMED_MAGNITUDES = 0.8
/** Stars as much alike as this are named first now the one, now the other. */
const ALIKE_MAGNITUDES = 0.1
const BARYCENTRE = [0, 0, 0] as const

/** Every double among these whose two stars the table of stars has, in their order. */
export const checkedPairs = (
  objects: readonly ShowObject[],
  stars: ReadonlyMap<number, StarRow>,
): readonly PairCheck[] => objects.flatMap((object) => checkedPair(object, stars) ?? [])

function checkedPair(object: ShowObject, stars: ReadonlyMap<number, StarRow>): PairCheck | undefined {
  const { key, name, separationArcsec, pairAngleDeg, pairYear: year, componentMagnitudes, note } = object
  if (separationArcsec === null || pairAngleDeg === null || year === null || componentMagnitudes === null)
    return undefined
  const entered: Apart = { arcsec: separationArcsec, angleDeg: pairAngleDeg }
  const [bright, faint] = componentMagnitudes
  const two = starsOf(object, entered, faint, stars)
  if (two === undefined) return undefined
  const computed = apartIn(year, two)
  const isFine = agree(entered, computed, faint - bright <= ALIKE_MAGNITUDES) || tellsOfOrbit(note ?? '')
  return { key, name, hips: [two[0].hip, two[1].hip], year, entered, computed, isFine }
}

/** The star that the row is about, and the one that its designations name or that stands by with a fitting light. */
function starsOf(
  { key, designations }: ShowObject,
  entered: Apart,
  faint: number,
  stars: ReadonlyMap<number, StarRow>,
): Two | undefined {
  const hips = [key, ...designations].flatMap((name) => /^hip ?(\d+)$/i.exec(name)?.[1] ?? [])
  const [main, ...named] = hips.flatMap((hip) => stars.get(Number(hip)) ?? [])
  if (main === undefined) return undefined
  const fits = ({ hip, magnitude }: StarRow, within: number): boolean =>
    hip !== main.hip && Math.abs(magnitude - faint) <= within
  const companion =
    named.find((star) => fits(star, NAMED_MAGNITUDES)) ??
    [...stars.values()].find((star) => fits(star, UNNAMED.magnitudes) && standsBy(apart(main, star).arcsec, entered))
  return companion && [main, companion]
}

const standsBy = (arcsec: number, entered: Apart): boolean =>
  arcsec <= UNNAMED.arcsec && arcsec <= UNNAMED.times * entered.arcsec && entered.arcsec <= UNNAMED.times * arcsec

/** Where the second stands from the first in the middle of a year; two stars of which one alone has a known motion are taken to move as one. */
function apartIn(year: number, [first, second]: Two): Apart {
  const middle = new Date(Date.UTC(year, 6, 1))
  const placeOf = (star: StarRow): Equatorial =>
    isMoving(first) && isMoving(second) ? toSphere(starVector(star, middle, BARYCENTRE)) : star
  return apart(placeOf(first), placeOf(second))
}

const isMoving = ({ pmRaMasYr, pmDecMasYr }: StarRow): boolean => pmRaMasYr !== 0 || pmDecMasYr !== 0

function apart(from: Equatorial, to: Equatorial): Apart {
  const [fromDec, toDec, turn] = [from.decDeg, to.decDeg, to.raDeg - from.raDeg].map(radians) as [
    number,
    number,
    number,
  ]
  const east = Math.cos(toDec) * Math.sin(turn)
  const north = Math.cos(fromDec) * Math.sin(toDec) - Math.sin(fromDec) * Math.cos(toDec) * Math.cos(turn)
  const arcsec = 3600 * separationDeg(from.raDeg, from.decDeg, to.raDeg, to.decDeg)
  return { arcsec, angleDeg: wrap360(degrees(Math.atan2(east, north))) }
}

function agree(entered: Apart, computed: Apart, isEven: boolean): boolean {
  const far = Math.max(ALLOWED.arcsec, ALLOWED.share * computed.arcsec)
  const turnDeg = Math.abs(wrap180(entered.angleDeg - computed.angleDeg))
  const leastTurnDeg = isEven ? Math.min(turnDeg, 180 - turnDeg) : turnDeg
  return Math.abs(entered.arcsec - computed.arcsec) <= far && leastTurnDeg <= ALLOWED.angleDeg
}

const tellsOfOrbit = (note: string): boolean => /\b(turned|orbit)\b/.test(note) && /\b(19|20)\d\d\b/.test(note)

/** A line for people: which pair, what was entered, what its stars say. */
export function pairLine({ key, name, year, entered, computed, isFine }: PairCheck): string {
  const said = ({ arcsec, angleDeg }: Apart): string =>
    `${arcsec.toFixed(1).padStart(6)}" ${angleDeg.toFixed(0).padStart(3)}°`
  return `${key.padEnd(10)} ${name.padEnd(24)} ${year}  ${said(entered)}  ${said(computed)}${isFine ? '' : '  DIFFERS'}`
}
