import type { ConstellationStore } from '../../db/constellations.ts'
import type { ObjectStore } from '../../db/objects.ts'
import type { FinderSubject } from '../drawings/finder-chart.ts'
import { Fault, notFound } from '../errors.ts'
import { separationDeg } from '../sky/angles.ts'
import { BODY_KEYS, bodyLook } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { apparentAltitudeDeg } from '../sky/refraction.ts'
import type { StarPlace } from '../sky/star.ts'
import { type FinderStar, type FinderTarget, hopsTo } from '../tours/hops.ts'
import { seenFrom } from '../tours/hops-frame.ts'
import { placeOf, type Site } from '../tours/site.ts'
import { apartDeg } from '../tours/sky-at.ts'
import type { ObjectHit, ObjectKind, ShowObject } from '../tours/target.ts'
import type { Finder } from '../tours/telescope.ts'
import type { ObjectDesk } from './objects.ts'

/** What is to be found by hand, where and when. */
export interface FinderQuestion {
  /** Of anything in the catalogue or of the host's own. */
  readonly key: string
  readonly site: Site
  readonly at: Date
  /** Of the telescope that is pointed; without one, a finder of the usual 5 degrees. */
  readonly finder?: Finder | undefined
  /** Width of what the telescope shows; null where it is not known. */
  readonly mainFieldDeg: number | null
}

/** All that a finder chart is drawn from; a conflict Fault for a thing without a place among the stars. */
export type FinderDesk = (question: FinderQuestion) => Omit<FinderSubject, 'idPrefix'>

interface Needs {
  readonly objects: Pick<ObjectDesk, 'find'>
  readonly catalogue: Pick<ObjectStore, 'find' | 'stars'>
  readonly constellations: ConstellationStore
}

// Common practice, no source.
const FINDER_FIELD_DEG = 5
const RADIUS_DEG = 30
const FAINTEST_MAG = 6.2
const NAMED_MAG = 4
const FAINTEST_WANDERER_MAG = 4
const POINTS: readonly ObjectKind[] = ['moon', 'star', 'red-star', 'double', 'planet']

/** Names such as Gamma Persei and 23 Ursae Majoris, which nobody calls out in the field. */
const DESIGNATION =
  /^(\d+|Alpha|Beta|Gamma|Delta|Epsilon|Zeta|Eta|Theta|Iota|Kappa|Lambda|Mu|Nu|Xi|Omicron|Pi|Rho|Sigma|Tau|Upsilon|Phi|Chi|Psi|Omega)\d* /

/** A star before anyone says from where it is seen. */
interface KnownStar {
  readonly place: StarPlace
  readonly star: Omit<FinderStar, 'direction'>
}

/** The chart that leads a hand-held finder from a bright star to a target. */
export function finderDesk({ objects, catalogue, constellations }: Needs): FinderDesk {
  const figures = pairsOf(constellations.lines())
  let kept: readonly KnownStar[] | undefined
  const known = (): readonly KnownStar[] => {
    kept ??= knownStars(catalogue)
    return kept
  }

  return ({ key, site, at, mainFieldDeg, finder }) => {
    const { finderFieldDeg, finderView } = finderSeen(finder)
    const goal = goalOf(objects.find(key).object, site, at)
    const around = known().filter(isNear(goal.place))
    const places = [...around.map(({ place }) => place), goal.place]
    const directions = seenFrom(places, at, placeOf(site))
    const direction = goal.direction ?? directions.at(-1)
    if (direction === undefined) throw notFound('object')
    const target = { ...goal.target, direction }
    const fixed = around.flatMap(({ star }, index): FinderStar[] => {
      const seen = directions[index]
      return seen === undefined ? [] : [{ ...star, direction: seen }]
    })
    const near = [...fixed, ...wanderersNear(target, objects, site, at)]
    const way = hopsTo(target, near, { site, finderFieldDeg })
    const { zone, horizon } = site
    const limitV = FAINTEST_MAG
    return { target, way, stars: near, figures, at, zone, horizon, finderFieldDeg, finderView, mainFieldDeg, limitV }
  }
}

/** How wide a finder shows the sky, and which way round; a red dot has no field of its own. */
function finderSeen(finder: Finder | undefined): Pick<FinderSubject, 'finderFieldDeg' | 'finderView'> {
  const isGlass = finder?.kind === 'straight' || finder?.kind === 'right-angle'
  return {
    finderFieldDeg: (isGlass ? finder.fieldDeg : null) ?? FINDER_FIELD_DEG,
    finderView: finder === undefined || finder.kind === 'none' ? null : finder.kind,
  }
}

const isNear =
  ({ raDeg, decDeg }: StarPlace) =>
  ({ place }: KnownStar): boolean =>
    Math.abs(place.decDeg - decDeg) <= RADIUS_DEG &&
    separationDeg(place.raDeg, place.decDeg, raDeg, decDeg) <= RADIUS_DEG

const pairsOf = (lines: ReturnType<ConstellationStore['lines']>): readonly (readonly [string, string])[] =>
  lines.flatMap(({ hips }) => hips.slice(1).map((hip, index) => [`hip${hips[index]}`, `hip${hip}`] as const))

/** Every star that may be drawn, brightest first; those that bare eyes find with what they are called. */
function knownStars(catalogue: Needs['catalogue']): readonly KnownStar[] {
  const led = new Set<string>()
  return catalogue.stars(FAINTEST_MAG).map((place) => {
    const { hip, magnitude } = place
    const object = magnitude <= NAMED_MAG ? catalogue.find(`hip${hip}`)?.object : undefined
    const [name, constellation] = [object?.name ?? null, object?.constellation ?? null]
    const isBrightest = constellation !== null && !led.has(constellation)
    if (constellation !== null) led.add(constellation)
    const isDesignated = DESIGNATION.test(name ?? '')
    const star = { key: `hip${hip}`, name, isDesignated, constellation, isBrightest, isWanderer: false, magnitude }
    return { place, star }
  })
}

interface Goal {
  readonly target: Omit<FinderTarget, 'direction'>
  /** Among the stars; of a wanderer near enough to look around there. */
  readonly place: StarPlace
  /** Where a wanderer is seen; null for what stands fast. */
  readonly direction: Horizontal | null
}

function goalOf(object: ShowObject | ObjectHit, site: Site, at: Date): Goal {
  const { name, raDeg, decDeg, magnitude } = object
  const isPoint = POINTS.includes(object.kind)
  if ('body' in object && object.body !== null) {
    const { magnitude: bright, ...look } = bodyLook(object.body, at, placeOf(site))
    return { target: { name, magnitude: bright, isPoint }, place: { ...AT_REST, ...look }, direction: seenOf(look) }
  }
  if (raDeg === null || decDeg === null) throw new Fault('conflict', 'fault.no-fixed-place', { name })
  return { target: { name, magnitude, isPoint }, place: { ...AT_REST, ...object, raDeg, decDeg }, direction: null }
}

const AT_REST = { pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 }

const seenOf = ({ altitudeDeg, azimuthDeg }: Horizontal): Horizontal => ({
  altitudeDeg: apparentAltitudeDeg(altitudeDeg),
  azimuthDeg,
})

const WANDERER = { isDesignated: false, constellation: null, isBrightest: false, isWanderer: true }

/** Moon and planets in the neighbourhood, which nobody should take for a star of the way. */
function wanderersNear({ direction }: FinderTarget, objects: Needs['objects'], site: Site, at: Date): FinderStar[] {
  return BODY_KEYS.filter((body) => body !== 'sun').flatMap((body): FinderStar[] => {
    const look = bodyLook(body, at, placeOf(site))
    const seen = seenOf(look)
    const apart = apartDeg(seen, direction)
    if (look.magnitude > FAINTEST_WANDERER_MAG || apart > RADIUS_DEG || apart === 0) return []
    const { name } = objects.find(body).object
    const { magnitude } = look
    return [{ ...WANDERER, key: body, name, magnitude, direction: seen }]
  })
}
