import type { SiteDraft, Town } from '../../tours/site.ts'
import { pointAzimuthDeg, SKYLINE_POINTS } from '../pages/site-form.ts'
import { type FormValues, numberOf } from './form-values.ts'

/** A site from its form. Once one corner of the skyline is filled in, every blank one is open horizon. */
export function siteDraftOf(values: FormValues): SiteDraft {
  return {
    name: (values.name ?? '').trim(),
    latitudeDeg: numberOf(values.latitudeDeg),
    longitudeDeg: numberOf(values.longitudeDeg),
    heightM: numberOf(values.heightM),
    zone: (values.zone ?? '').trim(),
    skyMag: numberOf(values.skyMag),
    horizon: skylineOf(values),
    glow: [],
  }
}

function skylineOf(values: FormValues): SiteDraft['horizon'] {
  const points = Array.from({ length: SKYLINE_POINTS }, (_, index) => ({
    height: values[`horizon.${index}.altitudeDeg`],
    name: (values[`horizon.${index}.name`] ?? '').trim(),
  }))
  if (points.every(({ height, name }) => height === undefined && name === '')) return []
  return points.map(({ height, name }, index) => ({
    azimuthDeg: pointAzimuthDeg(index),
    altitudeDeg: height === undefined && name === '' ? 0 : numberOf(height),
    name,
  }))
}

/** What a town of the gazetteer fills in of the form of a site. */
export const townValues = (town: Town): FormValues => ({
  latitudeDeg: String(town.latitudeDeg),
  longitudeDeg: String(town.longitudeDeg),
  heightM: String(town.heightM),
  zone: town.zone,
})
