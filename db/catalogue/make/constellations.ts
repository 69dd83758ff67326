import { csvOf, skyText } from './package.ts'
import { eastward, type SkyStar } from './stars.ts'

type Point = readonly [number, number]
interface LinesFeature {
  readonly id: string
  readonly geometry: { readonly coordinates: readonly (readonly Point[])[] }
}
interface BordersFeature {
  readonly ids: string
  readonly geometry: { readonly coordinates: readonly (readonly Point[])[] }
}

// Mira, whose mean V is 6.5, is the faintest star of a figure.
const faintestLineStar = 7
const cornerDeg = 0.02

/** The brightest star at a corner of a figure; throws when no star lies there, within 0.02 degrees. */
function cornerHip([longitudeDeg, decDeg]: Point, stars: readonly SkyStar[]): number {
  const shrink = Math.cos((decDeg * Math.PI) / 180)
  const [brightest] = stars
    .filter((star) => {
      const east = ((star.raDeg - longitudeDeg + 540) % 360) - 180
      return Math.hypot(east * shrink, star.decDeg - decDeg) < cornerDeg
    })
    .sort((a, b) => a.magnitude - b.magnitude)
  if (brightest === undefined) throw new Error(`No star at ${longitudeDeg}, ${decDeg}`)
  return brightest.hip
}

/** `lines.csv`: one row a stroke of a constellation figure, its corners as Hipparcos numbers. */
export function linesCsv(stars: readonly SkyStar[]): string {
  const { features }: { features: readonly LinesFeature[] } = JSON.parse(skyText('constellations.lines.json'))
  const bright = stars.filter(({ magnitude }) => magnitude < faintestLineStar)
  const rows = features.flatMap(({ id, geometry }) =>
    geometry.coordinates.map((stroke) => [id.slice(0, 3), stroke.map((point) => cornerHip(point, bright)).join(' ')]),
  )
  return csvOf(['constellation', 'hips'], rows.sort(byText))
}

/** `boundaries.csv`: every border once, with the constellations on both sides; J2000 places in degrees. */
export function boundariesCsv(): string {
  const { features }: { features: readonly BordersFeature[] } = JSON.parse(skyText('constellations.borders.json'))
  const parts = features
    .flatMap(({ ids, geometry }) => geometry.coordinates.map((points) => ({ sides: ids.split(',').sort(), points })))
    .sort((a, b) => byText([a.sides.join(), a.points.join()], [b.sides.join(), b.points.join()]))
  const rows = parts.flatMap(({ sides: [first = '', second = ''], points }, part) =>
    points.map(([longitudeDeg, decDeg], point) => [first, second, part, point, eastward(longitudeDeg), decDeg]),
  )
  return csvOf(['first', 'second', 'part', 'point', 'ra_deg', 'dec_deg'], rows)
}

function byText([a = '', c = '']: readonly string[], [b = '', d = '']: readonly string[]): number {
  const [left, right] = a === b ? [c, d] : [a, b]
  return left < right ? -1 : left > right ? 1 : 0
}
