import { degrees, radians, wrap180, wrap360 } from '../sky/angles.ts'
import { bodyLook } from '../sky/body.ts'
import { yearsSinceEpoch } from '../sky/time.ts'

const DAY_MS = 86_400_000
const DEG_PER_DAY = 360 / 365.2422
const TILT_DEG = 23.4393 // of the Earth's axis at J2000.0 (IAU 2006)
const PRECESSION_DEG_PER_YEAR = 50.29 / 3600
/** Seen from anywhere on the ground the Sun's longitude differs by less than 9 arcseconds. */
const MID_EARTH = { latitudeDeg: 0, longitudeDeg: 0, heightM: 0 }
const ROUNDS = 4

/** The Sun's ecliptic longitude in degrees at the equinox of J2000.0, by which meteor showers are dated; good to 0.02 degrees. */
export function sunLongitudeDeg(at: Date): number {
  const { raDeg, decDeg } = bodyLook('sun', at, MID_EARTH)
  const [ra, dec, tilt] = [radians(raDeg), radians(decDeg), radians(TILT_DEG)]
  const ofDateDeg = degrees(Math.atan2(Math.sin(ra) * Math.cos(tilt) + Math.tan(dec) * Math.sin(tilt), Math.cos(ra)))
  return wrap360(ofDateDeg - PRECESSION_DEG_PER_YEAR * yearsSinceEpoch(at))
}

/** The first instant after another at which the Sun stands at a longitude in degrees, to the hour. */
export function showerPeak(sunDeg: number, after: Date): Date {
  let at = new Date(after.getTime() + (wrap360(sunDeg - sunLongitudeDeg(after)) / DEG_PER_DAY) * DAY_MS)
  for (let round = 0; round < ROUNDS; round++)
    at = new Date(at.getTime() + (wrap180(sunDeg - sunLongitudeDeg(at)) / DEG_PER_DAY) * DAY_MS)
  return at
}
