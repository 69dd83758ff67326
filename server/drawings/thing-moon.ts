import { degrees, radians } from '../sky/angles.ts'
import { mistDots, rimOf } from './thing-mist.ts'
import { type Drawn, type DrawnEllipse, dotsOf, type Paper, type Sketch } from './thing-paper.ts'

/** The full Moon's mean width in arcminutes. */
export const MOON_ARCMIN = 31
export const MOON_RADIUS_KM = 1737.4
/** The largest seas: longitude (east positive) and latitude in degrees, width in km; from memory, the Ocean of Storms by its broad middle. */
export const SEAS = [
  [59, 17, 556],
  [18, 28, 674],
  [31, 8, 876],
  [-16, 33, 1146],
  [34, -15, 339],
  [-39, -24, 420],
  [53, -8, 760],
  [-17, -21, 690],
  [-52, 14, 1150],
] as const

/** The full Moon's disc with its seas as dots, north up and east of the sky to the left. */
export function moonDisc({ x, y, pxPerArcmin, isSmall }: Paper): Drawn {
  const radius = (MOON_ARCMIN / 2) * pxPerArcmin
  const rim: DrawnEllipse = { x, y, halfMajorPx: radius, halfMinorPx: radius, angleDeg: 0 }
  const seas = SEAS.flatMap(([longitudeDeg, latitudeDeg, widthKm], i) => {
    const sea = seaOn(rim, longitudeDeg, latitudeDeg, widthKm)
    const count = Math.max(3, (sea.halfMajorPx * sea.halfMinorPx * Math.PI) / (isSmall ? 24 : 20))
    return mistDots(sea, () => 1, count, i + 1)
  })
  return { svg: [rimOf(rim, true), dotsOf(seas, isSmall ? 2 : 2.2)], ellipses: [rim], stars: [] }
}

/** A round sea as it lies foreshortened on the disc; its position angle runs from north through the east of the sky. */
function seaOn(
  { x, y, halfMajorPx: radius }: DrawnEllipse,
  longitudeDeg: number,
  latitudeDeg: number,
  widthKm: number,
): DrawnEllipse {
  const [lon, lat] = [radians(longitudeDeg), radians(latitudeDeg)]
  const [right, up] = [Math.cos(lat) * Math.sin(lon), Math.sin(lat)]
  const off = Math.hypot(right, up)
  const half = Math.asin(Math.min(1, widthKm / 2 / MOON_RADIUS_KM))
  return {
    x: x + radius * right * Math.cos(half),
    y: y - radius * up * Math.cos(half),
    halfMajorPx: radius * Math.sin(half),
    halfMinorPx: radius * Math.sin(half) * Math.sqrt(1 - off ** 2),
    angleDeg: degrees(Math.atan2(-right, up)) + 90,
  }
}

/** The Moon as its own picture. */
export const moonSketch = (): Sketch => ({
  widthArcmin: MOON_ARCMIN,
  heightArcmin: MOON_ARCMIN,
  size: { code: 'object.size-wide', arcmin: [MOON_ARCMIN] },
  draw: moonDisc,
  notes: ['object.draw-moon'],
  isOwnMeasure: true,
})
