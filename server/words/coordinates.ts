import type { Problem } from '../errors.ts'
import { type AngleCode, angleOf } from './coordinate-angle.ts'
import { type Piece, piecesOf } from './coordinate-pieces.ts'
import type { Words } from './words.ts'

/** The two fields of a place as they were typed. */
interface TypedPlace {
  readonly latitude: string
  readonly longitude: string
}

/** A place in degrees, north and east positive; NaN where `problems` names the field. */
interface ReadPlace {
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly problems: readonly Problem[]
}

type Axis = 'latitudeDeg' | 'longitudeDeg'
const MOST_DEG: Readonly<Record<Axis, number>> = { latitudeDeg: 90, longitudeDeg: 180 }

/**
 * A place as people write it: decimals with a point or a comma, degrees and minutes, degrees with minutes and seconds, with
 * the letter of the half of the Earth before or after, a sign, or both coordinates in one of the fields. A longitude in the
 * field of the latitude is told, never turned round in silence.
 */
export function readPlace(words: Words, { latitude, longitude }: TypedPlace): ReadPlace {
  const north = piecesOf(words, latitude)
  const east = piecesOf(words, longitude)
  if (north.length === 2 && east.length === 0) return readPair(north, 'latitudeDeg')
  if (east.length === 2 && north.length === 0) return readPair(east, 'longitudeDeg')
  if (north.length === 2) return wrong('latitudeDeg', tooMuch(north))
  if (east.length === 2) return wrong('longitudeDeg', tooMuch(east))
  return readTwo(north, east)
}

/** Two coordinates beside a filled field; what is no pair was one that nobody can read. */
const tooMuch = (pieces: readonly Piece[]): string =>
  readPair(pieces, 'latitudeDeg').problems.length === 0 ? 'problem.place-both' : 'problem.place-unread'

/** One coordinate in each field. */
function readTwo(north: readonly Piece[], east: readonly Piece[]): ReadPlace {
  const latitude = angleOf(north[0], 'latitudeDeg')
  const longitude = angleOf(east[0], 'longitudeDeg')
  const isStray = [latitude, longitude].some(({ code }) => code === 'problem.place-swapped')
  if (isStray || isOnlyFitRound(latitude.deg, longitude.deg)) return wrong('latitudeDeg', 'problem.place-swapped')
  return checked(latitude, longitude, { latitudeDeg: 'latitudeDeg', longitudeDeg: 'longitudeDeg' })
}

/** Both in the one field `typedIn`: by their letters in any order, without letters the latitude first. */
function readPair([first, second]: readonly Piece[], typedIn: Axis): ReadPlace {
  const isTurned = first?.half?.axis === 'longitudeDeg' || second?.half?.axis === 'latitudeDeg'
  const latitude = angleOf(isTurned ? second : first, 'latitudeDeg')
  const longitude = angleOf(isTurned ? first : second, 'longitudeDeg')
  const fields = { latitudeDeg: typedIn, longitudeDeg: typedIn }
  if (isOnlyFitRound(latitude.deg, longitude.deg)) return wrong(typedIn, 'problem.place-swapped')
  const { problems, ...place } = checked(latitude, longitude, fields)
  return { ...place, problems: problems.slice(0, 1) }
}

interface ReadAngle {
  readonly deg: number
  readonly code: AngleCode | null
}

function checked(latitude: ReadAngle, longitude: ReadAngle, fields: Readonly<Record<Axis, Axis>>): ReadPlace {
  const problems = [...problemsOf(latitude, 'latitudeDeg', fields), ...problemsOf(longitude, 'longitudeDeg', fields)]
  return { latitudeDeg: latitude.deg, longitudeDeg: longitude.deg, problems }
}

function problemsOf({ deg, code }: ReadAngle, axis: Axis, fields: Readonly<Record<Axis, Axis>>): Problem[] {
  const field = fields[axis]
  if (code !== null) return [{ field, key: code }]
  return Math.abs(deg) > MOST_DEG[axis] ? [{ field, key: `problem.place-beyond-${axis}` }] : []
}

/** No latitude goes beyond the pole, so that these two can only be meant the other way round. */
const isOnlyFitRound = (latitudeDeg: number, longitudeDeg: number): boolean =>
  Math.abs(latitudeDeg) > MOST_DEG.latitudeDeg &&
  Math.abs(latitudeDeg) <= MOST_DEG.longitudeDeg &&
  Math.abs(longitudeDeg) <= MOST_DEG.latitudeDeg

const wrong = (field: Axis, key: string): ReadPlace => ({
  latitudeDeg: Number.NaN,
  longitudeDeg: Number.NaN,
  problems: [{ field, key }],
})
