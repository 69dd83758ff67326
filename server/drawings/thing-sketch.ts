import type { ObjectHit, ShowObject } from '../tours/target.ts'
import { planetSketch } from './thing-bodies.ts'
import { clusterSketch, doubleSketch, neighbourhood, showerSketch } from './thing-fields.ts'
import { glowSketch, type Profile } from './thing-mist.ts'
import { moonSketch } from './thing-moon.ts'
import { type Sketch, seedOf } from './thing-paper.ts'
import { patternSketch } from './thing-pattern.ts'
import { middleOf, type SkyStar } from './thing-stars.ts'

/** What is drawn: a thing of the list or a star of the catalogue, and the stars of the star table that its picture asks for. */
export interface ThingSubject {
  readonly thing: ShowObject | ObjectHit
  readonly stars: readonly SkyStar[]
  /** Colour index of a star of the catalogue; null where it is unknown, or stands in the row of the list. */
  readonly bv: number | null
}

const isShown = (thing: ThingSubject['thing']): thing is ShowObject => 'appeal' in thing

/** The shape of a thing, or null where nobody can draw one. */
export function sketchOf({ thing, stars, bv }: ThingSubject): Sketch | null {
  if (!isShown(thing)) return neighbourhood(thing, stars, bv)
  switch (thing.kind) {
    case 'moon':
      return moonSketch()
    case 'planet':
      return thing.body && planetSketch(thing.body)
    case 'planet-moon':
      return besidePlanet(thing)
    case 'star':
    case 'red-star':
      return neighbourhood(thing, stars, thing.bv)
    case 'double':
      return doubleSketch(thing)
    case 'open-cluster':
      return clusterSketch(thing, stars)
    case 'meteor-shower':
      return showerSketch(thing, stars)
    case 'asterism':
    case 'bare-eye':
      return pattern(thing, stars)
    default:
      return glowing(thing)
  }
}

function pattern(thing: ShowObject, stars: readonly SkyStar[]): Sketch | null {
  const middle = middleOf(thing)
  return middle && patternSketch(middle, stars, thing.hips.length > 1, 'object.draw-in-place')
}

/** A moon is a dot whose place is another every night, so its planet is drawn. */
function besidePlanet({ parent }: ShowObject): Sketch | null {
  const planet = parent && planetSketch(parent)
  return planet && { ...planet, notes: ['object.draw-parent', ...planet.notes] }
}

const COMA_STEEP = 0.7

/** How the glow of a kind of thing falls off. */
export function profileOf({ kind, majorArcmin, halfLightArcmin, condensation }: ShowObject): Profile {
  switch (kind) {
    case 'galaxy':
      return (share) => Math.exp(-3.2 * share)
    case 'globular': {
      // Plummer's law, which holds half of the light inside the half-light radius.
      const halfLight = (2 * (halfLightArcmin ?? (majorArcmin ?? 1) / 8)) / (majorArcmin ?? 1)
      return (share) => (1 + (share / halfLight) ** 2) ** -2
    }
    case 'comet':
      return (share) => Math.exp(-(1.5 + COMA_STEEP * (condensation ?? 4)) * share)
    case 'remnant':
      return (share) => 0.3 + 0.7 * share ** 2
    case 'planetary':
      return (share) => 0.6 + 0.4 * share ** 2
    default:
      return (share) => 1 - 0.85 * share ** 2
  }
}

function glowing(thing: ShowObject): Sketch | null {
  const { key, kind, majorArcmin, minorArcmin, angleDeg, coreArcmin } = thing
  if (majorArcmin === null) return null
  return glowSketch({
    majorArcmin,
    minorArcmin: minorArcmin ?? majorArcmin,
    angleDeg,
    profile: profileOf(thing),
    core: coreArcmin === null ? null : { widthArcmin: coreArcmin },
    hasEdge: kind === 'planetary',
    seed: seedOf(key),
    notes: [kind === 'globular' ? 'object.draw-globular' : 'object.draw-mist'],
  })
}
