import type { Subject } from '../sight/subject.ts'
import { radians } from '../sky/angles.ts'
import { cross, fromSphere, plus, toSphere, type Vector } from '../sky/vectors.ts'
import type { ShowObject } from './target.ts'

/** The whole Milky Way of the list, which has no one place. */
const MILKY_WAY = 'eye-milky-way'

/*
 * Surface brightness of the band itself in V magnitudes per square arcsecond, by galactic longitude in degrees: photometry
 * of integrated starlight, from memory, good to half a magnitude.
 */
const BAND: readonly (readonly [longitudeDeg: number, magPerArcsec2: number])[] = [
  [0, 20.6],
  [15, 20.8],
  [30, 21],
  [50, 21.5],
  [75, 21.4],
  [105, 21.9],
  [135, 22.2],
  [165, 22.5],
  [195, 22.4],
  [225, 22.1],
  [260, 21.7],
  [290, 21],
  [310, 21.1],
  [330, 21.1],
  [345, 20.8],
]
const PIECE_DEG = 15
const NARROW = 0.5 // the band is half as wide as such a piece is long (a choice)
const EDGELESS_MAG = 0.5 // what fades into the sky on all sides is so much harder than a disc with a rim (a choice)

// North pole and middle of the galaxy in ICRS degrees (IAU 1958, carried to J2000.0; from memory).
const NORTH = fromSphere(192.8595, 27.1283)
const MIDDLE = fromSphere(266.405, -28.9362)
const AHEAD = cross(NORTH, MIDDLE)
const NOWHERE: Vector = [0, 0, 0]

/** ICRS right ascension and declination in degrees of a place in the middle of the Milky Way, by its galactic longitude in degrees. */
export function bandPlace(longitudeDeg: number): { readonly raDeg: number; readonly decDeg: number } {
  const turned = radians(longitudeDeg)
  return toSphere(plus(plus(NOWHERE, MIDDLE, Math.cos(turned)), AHEAD, Math.sin(turned)))
}

/** A piece of the Milky Way with a place of its own; all have the key of the whole. */
interface BandPiece {
  readonly object: ShowObject
  readonly subject: Subject
}

/** The Milky Way of a list in pieces; [] for a list without it. */
export function bandPieces(objects: readonly ShowObject[]): readonly BandPiece[] {
  const whole = objects.find(({ key }) => key === MILKY_WAY)
  if (whole === undefined) return []
  return BAND.map(([longitudeDeg, magPerArcsec2]) => ({
    object: { ...whole, ...bandPlace(longitudeDeg), fieldDeg: PIECE_DEG },
    subject: glow(magPerArcsec2, PIECE_DEG),
  }))
}

const ARCSEC2_PER_DEG2 = 3600 ** 2

/** A wide glow of one brightness, half as high as it is wide. */
function glow(magPerArcsec2: number, widthDeg: number): Subject {
  const areaArcsec2 = (Math.PI / 4) * NARROW * widthDeg ** 2 * ARCSEC2_PER_DEG2
  return {
    kind: 'remnant',
    magnitude: magPerArcsec2 + EDGELESS_MAG - 2.5 * Math.log10(areaArcsec2),
    majorArcmin: 60 * widthDeg,
    minorArcmin: 60 * NARROW * widthDeg,
  }
}

/** By key the brightness of the band there; what is dark in it is seen where the band has half a magnitude to spare (a choice). */
const GLOWS: Readonly<Record<string, number>> = {
  'eye-milky-way-heart': 20.6,
  'eye-great-rift': 21.9,
  'eye-dark-emu': 21.6,
  'eye-coalsack': 21.6,
}

/** Mizar and Alcor as one pair: magnitudes and distance, from memory. */
const HORSE_AND_RIDER: Subject = {
  kind: 'double',
  magnitudes: [2.06, 3.99],
  separationArcsec: 709,
  hasColourContrast: false,
}

/** What the sight floor needs of a sight for bare eyes that has a place; null for those that weather or chance brings. */
export function eyeSightSubject({ key, fieldDeg }: ShowObject): Subject | null {
  if (key === 'eye-horse-and-rider') return HORSE_AND_RIDER
  const magPerArcsec2 = GLOWS[key]
  return magPerArcsec2 === undefined ? null : glow(magPerArcsec2, fieldDeg ?? PIECE_DEG)
}
