import type { SkyGeometry } from '../sight/sky-brightness.ts'
import type { BodyLook } from '../sky/body.ts'
import { AU_KM } from '../sky/globe.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { apartDeg } from './sky-at.ts'

/** Where Sun and Moon stand to a direction, as the brightness of the sky there asks it. */
export const lightGeometry = (direction: Horizontal, sun: BodyLook, moon: BodyLook): SkyGeometry => ({
  ...direction,
  sunAltitudeDeg: sun.altitudeDeg,
  sunSeparationDeg: apartDeg(direction, sun),
  moon:
    moon.altitudeDeg <= 0
      ? null
      : {
          altitudeDeg: moon.altitudeDeg,
          phaseAngleDeg: moon.phaseAngleDeg,
          distanceKm: moon.distanceAu * AU_KM,
          separationDeg: apartDeg(direction, moon),
        },
})
