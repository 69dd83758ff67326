import { Fault } from '../errors.ts'
import { viewThrough } from '../sight/optics.ts'
import { sighting } from '../sight/sighting.ts'
import type { SkyGeometry } from '../sight/sky-brightness.ts'
import type { Subject } from '../sight/subject.ts'
import { sunCaution } from '../sight/sun-caution.ts'
import { bodyLook } from '../sky/body.ts'
import { AU_KM } from '../sky/globe.ts'
import type { Place } from '../sky/place.ts'
import { saturnRing } from '../sky/saturn.ts'
import { facesAt } from '../tours/faces.ts'
import { apartDeg } from '../tours/sky-at.ts'
import { subjectOf } from '../tours/subject.ts'
import type { ObjectHit, ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'

/** One question to the sight floor: would a newcomer see this thing there and then? */
export const sightDesk = (desk: Pick<Desk, 'objects' | 'sky'>): Desk['sight'] => ({
  ask({ objectKey, at, place, optics, ocular, conditions }) {
    const { canonicalKey, object } = desk.objects.find(objectKey)
    const subject = subjectFor(object, at, place)
    if (!subject) throw new Fault('conflict', 'fault.no-subject', { name: object.name })
    const view = viewThrough(optics, ocular)
    const geometry = geometryOf(desk.sky, canonicalKey, at, place)
    return { ...sighting(subject, geometry, view, conditions), caution: sunCaution(geometry) }
  },
})

function subjectFor(object: ShowObject | ObjectHit, at: Date, place: Place): Subject | null {
  if (!('body' in object)) return plainStar(object)
  const looks = object.body === null ? {} : { [object.body]: bodyLook(object.body, at, place) }
  return subjectOf(object, { looks, rings: saturnRing(at), faces: facesAt(at) })
}

const plainStar = ({ magnitude }: ObjectHit): Subject | null =>
  magnitude === null ? null : { kind: 'star', magnitude, bv: null, isRed: false }

function geometryOf(sky: Desk['sky'], key: string, at: Date, place: Place): SkyGeometry {
  const [target, sun, moon] = sky.places(at, place, [key, 'sun', 'moon'])
  if (!target || !sun || !moon?.look) throw new Error('The sky answered fewer places than asked')
  const seen = { altitudeDeg: target.apparentAltitudeDeg, azimuthDeg: target.azimuthDeg }
  const isMoonOut = moon.altitudeDeg > 0 && key !== 'moon'
  return {
    ...seen,
    sunAltitudeDeg: sun.altitudeDeg,
    sunSeparationDeg: apartDeg(seen, sun),
    moon: !isMoonOut
      ? null
      : {
          altitudeDeg: moon.altitudeDeg,
          phaseAngleDeg: moon.look.phaseAngleDeg,
          distanceKm: moon.look.distanceAu * AU_KM,
          separationDeg: apartDeg(seen, moon),
        },
  }
}
