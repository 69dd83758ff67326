import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { bestView } from '../../server/sight/eyepiece.ts'
import { featuresTonight } from '../../server/sight/moon-features.ts'
import { viewThrough } from '../../server/sight/optics.ts'
import { moonsOfJupiter } from '../../server/sight/planet-moons.ts'
import { sighting } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { separationDeg } from '../../server/sky/angles.ts'
import { bodyLook } from '../../server/sky/body.ts'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { jupiterMoons } from '../../server/sky/jupiter.ts'
import { moonFace } from '../../server/sky/moon-face.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { saturnRing } from '../../server/sky/saturn.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import { isColourContrast } from '../../server/tours/colours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import type { Telescope } from '../../server/tours/telescope.ts'

interface Seen {
  readonly chance: number
  readonly view: number
}

export const minutesAfter = (at: Date, minutes: number): Date => new Date(at.getTime() + minutes * 60_000)

/** Where an object is seen at an instant: altitude refracted. Reckoned one star, one body at a time. */
export function seenPlace(object: ShowObject, at: Date, night: Night): Horizontal {
  const place =
    object.body === null ? starHorizontal(starOf(object), at, night.site) : bodyLook(object.body, at, night.site)
  return { altitudeDeg: apparentAltitudeDeg(place.altitudeDeg), azimuthDeg: place.azimuthDeg }
}

function starOf({ raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }: ShowObject) {
  if (raDeg === null || decDeg === null) throw new Error('An object without a place')
  return { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas }
}

/** What the sight floor needs of the place of an object at an instant. */
export function geometryOf(object: ShowObject, at: Date, night: Night): SkyGeometry {
  const place = seenPlace(object, at, night)
  const [sun, moon] = [bodyLook('sun', at, night.site), bodyLook('moon', at, night.site)]
  const from = (other: Horizontal) =>
    separationDeg(place.azimuthDeg, place.altitudeDeg, other.azimuthDeg, other.altitudeDeg)
  const { altitudeDeg, phaseAngleDeg } = moon
  const distanceKm = moon.distanceAu * 149_597_870.7
  const lit = { altitudeDeg, phaseAngleDeg, distanceKm, separationDeg: from(moon) }
  const isLit = object.body !== 'moon' && altitudeDeg > 0
  return { ...place, sunAltitudeDeg: sun.altitudeDeg, sunSeparationDeg: from(sun), moon: isLit ? lit : null }
}

const conditionsOf = ({ site, settings }: Night) => ({
  ...DEFAULT_CONDITIONS,
  zenithMag: site.skyMag,
  extinctionMag: settings.extinctionMag,
  seeingArcsec: settings.seeingArcsec,
  thinCloud: settings.thinCloud,
  noviceFactor: settings.noviceFactor,
  moonGazerShare: settings.moonGazerShare,
  glow: site.glow,
})

/** What the sight floor takes, from the row of the list and the look of the body at that instant. */
export function subjectAt(object: ShowObject, at: Date, night: Night): Subject {
  const magnitude = object.magnitude ?? 0
  const majorArcmin = object.majorArcmin ?? 10
  const minorArcmin = object.minorArcmin ?? majorArcmin
  const { kind, brightestStarMag, starCount, starMagnitudes: starMags, branchMag } = object
  if (object.body !== null) return bodySubject(object, at, night)
  if (kind === 'open-cluster')
    return { kind, magnitude, diameterArcmin: majorArcmin, brightestStarMag, starCount, starMags }
  if (kind === 'globular')
    return { kind, magnitude, halfLightArcmin: object.halfLightArcmin ?? majorArcmin / 4, branchMag }
  if (kind === 'galaxy') {
    const [coreMag, diameterArcmin] = [object.coreMagnitude, object.coreArcmin]
    const core = coreMag === null || diameterArcmin === null ? null : { magnitude: coreMag, diameterArcmin }
    return { kind, magnitude, majorArcmin, minorArcmin, core }
  }
  if (kind === 'comet') return { kind, magnitude, comaArcmin: majorArcmin, condensation: object.condensation ?? 4 }
  if (kind === 'asterism') return { kind, magnitude, fieldDeg: object.fieldDeg ?? majorArcmin / 60 }
  if (kind === 'star' || kind === 'red-star')
    return { kind: 'star', magnitude, bv: object.bv, isRed: kind === 'red-star' }
  if (kind === 'double') {
    const magnitudes = object.componentMagnitudes ?? [0, 0]
    return {
      kind,
      magnitudes,
      separationArcsec: object.separationArcsec ?? 0,
      hasColourContrast: object.colours !== null && isColourContrast(object.colours),
    }
  }
  if (kind === 'planetary' || kind === 'nebula' || kind === 'remnant')
    return { kind, magnitude, majorArcmin, minorArcmin }
  throw new Error(`No telescope shows a ${kind}`)
}

function bodySubject({ body, features }: ShowObject, at: Date, night: Night): Subject {
  if (body === null) throw new Error('A body without a key')
  const { magnitude, diameterArcsec, litFraction, phaseAngleDeg } = bodyLook(body, at, night.site)
  if (body === 'moon') {
    const lit = features.length === 0 ? {} : { features: featuresTonight(moonFace(at), features) }
    return { kind: 'moon', litFraction, phaseAngleDeg, diameterArcmin: diameterArcsec / 60, ...lit }
  }
  const ring = saturnRing(at)
  const moons = body === 'jupiter' ? moonsOfJupiter({ magnitude, diameterArcsec }, jupiterMoons(at)) : []
  const [ringMajorArcsec, ringMinorArcsec] = body === 'saturn' ? [ring.majorArcsec, ring.minorArcsec] : [0, 0]
  return { kind: 'planet', body, magnitude, diameterArcsec, litFraction, ringMajorArcsec, ringMinorArcsec, moons }
}

/** Chance and view through one tube and eyepiece at one instant. */
export function seenThrough(
  object: ShowObject,
  at: Date,
  night: Night,
  telescope: Telescope,
  ids: { readonly tubeId: string; readonly eyepieceId: string },
): Seen {
  const tube = telescope.tubes.find(({ id }) => id === ids.tubeId)
  const eyepiece = telescope.eyepieces.find(({ id }) => id === ids.eyepieceId)
  if (tube === undefined || eyepiece === undefined) throw new Error('A setup that the telescope does not have')
  const geometry = geometryOf(object, at, night)
  return sighting(subjectAt(object, at, night), geometry, viewThrough(tube, eyepiece), conditionsOf(night))
}

/** The best that a telescope shows of an object at one instant. */
export function bestSeen(object: ShowObject, at: Date, night: Night, telescope: Telescope): Seen {
  const geometry = geometryOf(object, at, night)
  const subject = subjectAt(object, at, night)
  const all = telescope.tubes.map(
    (tube) => bestView(subject, geometry, tube, telescope.eyepieces, conditionsOf(night), 'whole').sighting,
  )
  return all.reduce((best, seen) => (seen.chance * seen.view > best.chance * best.view ? seen : best))
}

/** Degrees of the trees at an azimuth: straight lines between the corners of the skyline. */
export function treesDeg({ site }: Night, azimuthDeg: number): number {
  const corners = [...site.horizon].sort((a, b) => a.azimuthDeg - b.azimuthDeg)
  const [first, last] = [corners[0], corners.at(-1)]
  if (first === undefined || last === undefined) return 0
  const ring = [
    { ...last, azimuthDeg: last.azimuthDeg - 360 },
    ...corners,
    { ...first, azimuthDeg: first.azimuthDeg + 360 },
  ]
  const next = ring.findIndex((corner) => corner.azimuthDeg > azimuthDeg)
  const [a, b] = [ring[next - 1], ring[next]]
  if (a === undefined || b === undefined) return last.altitudeDeg
  return a.altitudeDeg + ((azimuthDeg - a.azimuthDeg) / (b.azimuthDeg - a.azimuthDeg)) * (b.altitudeDeg - a.altitudeDeg)
}
