import { degrees, radians } from '../sky/angles.ts'
import type { MoonFace } from '../sky/moon-face.ts'

/** A place of the Moon as it is seen, in radii of the disc: along its axis to the north, to the left of that (east of the sky), and towards the eye. */
interface OnMoon {
  readonly north: number
  readonly east: number
  readonly towards: number
}

/** Where a place of the Moon (degrees, longitude EAST positive) lies on the disc at a face; behind it where `towards` is negative. */
export function onMoon(face: MoonFace, longitudeDeg: number, latitudeDeg: number): OnMoon {
  const [mid, lat] = [radians(face.librationLatitudeDeg), radians(latitudeDeg)]
  const apart = radians(longitudeDeg - face.librationLongitudeDeg)
  return {
    north: Math.sin(lat) * Math.cos(mid) - Math.cos(lat) * Math.sin(mid) * Math.cos(apart),
    east: -Math.cos(lat) * Math.sin(apart),
    towards: Math.sin(mid) * Math.sin(lat) + Math.cos(mid) * Math.cos(lat) * Math.cos(apart),
  }
}

/** Where the light comes from, reckoned from the place under the Sun: position angle of the bright limb and the phase angle. */
export function lightOnMoon(face: MoonFace): { readonly limbAngleDeg: number; readonly phaseAngleDeg: number } {
  const under = onMoon(face, 90 - face.colongitudeDeg, face.sunLatitudeDeg)
  return {
    limbAngleDeg: face.axisAngleDeg + degrees(Math.atan2(under.east, under.north)),
    phaseAngleDeg: degrees(Math.acos(Math.min(1, Math.max(-1, under.towards)))),
  }
}
