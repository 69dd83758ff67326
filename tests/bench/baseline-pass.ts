import { Body, DefineStar, Equator, Horizon, MakeTime, Observer } from 'astronomy-engine'
import { airmassPickering } from '../../server/sky/airmass.ts'
import type { SkyPass } from '../../server/sky/pass.ts'
import type { Place } from '../../server/sky/place.ts'
import type { StarPlace } from '../../server/sky/star.ts'

/** Far enough that the library's own parallax vanishes. */
const DISTANCE_LIGHT_YEARS = 1e8

/**
 * The straightforward way to the same three columns, star by star: one shared time object an instant, the ephemeris library's
 * star route (DefineStar, Equator of date with aberration, Horizon with its refraction), then our airmass from the altitude.
 * The library knows no proper motion, so the stars that come in here have none.
 */
export function passStarByStar(stars: readonly StarPlace[], instants: readonly Date[], place: Place): SkyPass {
  const observer = new Observer(place.latitudeDeg, place.longitudeDeg, place.heightM)
  const size = stars.length * instants.length
  const columns = {
    altitudeDeg: new Float64Array(size),
    azimuthDeg: new Float64Array(size),
    airmass: new Float64Array(size),
  }
  instants.forEach((at, slot) => {
    const time = MakeTime(at)
    stars.forEach((star, row) => {
      DefineStar(Body.Star1, star.raDeg / 15, star.decDeg, DISTANCE_LIGHT_YEARS)
      const { ra, dec } = Equator(Body.Star1, time, observer, true, true)
      const { altitude, azimuth } = Horizon(time, observer, ra, dec, 'normal')
      const index = slot * stars.length + row
      columns.altitudeDeg[index] = altitude
      columns.azimuthDeg[index] = azimuth
      columns.airmass[index] = airmassPickering(altitude)
    })
  })
  return columns
}
