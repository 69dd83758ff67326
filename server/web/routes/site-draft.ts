import type { Problem } from '../../errors.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { type Site, type SiteDraft, SKY_CLASSES, type Town } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { bearingDeg, bearingText } from '../pages/bearing.ts'
import {
  FEWEST_GLOWS,
  MOST_CORNERS,
  MOST_GLOWS,
  pointAzimuthDeg,
  type SiteRowCounts,
  SKYLINE_POINTS,
} from '../pages/site-rows.ts'
import { type FormValues, filledRows, numberOf, rowCount, withRows } from './form-values.ts'

/** The values of an empty form for a new site. */
export const NEW_SITE: FormValues = { skyMag: '20' }

/** How many rows the form of a site shows; a form that counts corners has a skyline measured at its own directions. */
export const siteRowCounts = (values: FormValues): SiteRowCounts => ({
  glows: rowCount(values, 'glowRows', FEWEST_GLOWS, MOST_GLOWS),
  corners: values.cornerRows === undefined ? null : rowCount(values, 'cornerRows', 1, MOST_CORNERS),
})

/**
 * The form's values with the brightness of a class that was chosen; a value that was corrected counts before the class,
 * which is then no longer chosen.
 */
export function withSky(values: FormValues): FormValues {
  const { skyClass, ...rest } = values
  const chosen = SKY_CLASSES.find((known) => String(known) === skyClass)
  const isCorrected = values.skyMag !== undefined && values.skyMag !== values.skyMagShown
  return chosen === undefined || isCorrected ? rest : { ...values, skyMag: String(skyMagOfClass(chosen)) }
}

/** The form's values without blank rows, so that row numbers are those of the draft. */
export const siteRows = (values: FormValues): FormValues =>
  withRows(values, {
    glow: filledRows(values, 'glow', () => true),
    ...(values.cornerRows !== undefined && { horizon: filledRows(values, 'horizon', () => true) }),
  })

/** A site from its form, with `values` as `siteRows` and `withSky` give them. */
export function siteDraftOf(values: FormValues, words: Words): SiteDraft {
  return {
    name: (values.name ?? '').trim(),
    latitudeDeg: numberOf(values.latitudeDeg),
    longitudeDeg: numberOf(values.longitudeDeg),
    heightM: numberOf(values.heightM),
    zone: (values.zone ?? '').trim(),
    skyMag: numberOf(values.skyMag),
    horizon: values.cornerRows === undefined ? byPoints(values) : byCorners(values, words),
    glow: filledRows(values, 'glow', () => true).map((row) => ({
      fromDeg: bearingDeg(words, row.fromDeg ?? ''),
      toDeg: bearingDeg(words, row.toDeg ?? ''),
      brighterMag: numberOf(row.brighterMag),
    })),
  }
}

/** Once one point of the skyline is filled in, every blank one is open horizon. */
function byPoints(values: FormValues): SiteDraft['horizon'] {
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

const byCorners = (values: FormValues, words: Words): SiteDraft['horizon'] =>
  filledRows(values, 'horizon', () => true).map((row) => ({
    azimuthDeg: bearingDeg(words, row.azimuthDeg ?? ''),
    altitudeDeg: numberOf(row.altitudeDeg),
    name: row.name ?? '',
  }))

const BEARING = /^(glow\.\d+\.(from|to)|horizon\.\d+\.azimuth)Deg$/

/** The problems of a site in the words of its form, where a direction may be written as a compass point. */
export const siteFormProblems = (problems: readonly Problem[]): Problem[] =>
  problems.map(({ field, key, values = {} }) =>
    BEARING.test(field) && /^problem\.(type|range|required)$/.test(key)
      ? { field, key: 'problem.bearing' }
      : { field, key, values },
  )

/** What a town of the gazetteer fills in of the form of a site. */
export const townValues = (town: Town): FormValues => ({
  ...NEW_SITE,
  latitudeDeg: String(town.latitudeDeg),
  longitudeDeg: String(town.longitudeDeg),
  heightM: String(town.heightM),
  zone: town.zone,
})

/** The values of the form of a kept site. A skyline that is not one by compass points is shown by its own corners. */
export function siteValues(site: Site, words: Words): FormValues {
  const { name, latitudeDeg, longitudeDeg, heightM, zone, skyMag, horizon, glow } = site
  const isByPoints = horizon.length === 0 || horizon.every(({ azimuthDeg }, i) => azimuthDeg === pointAzimuthDeg(i))
  const isWhole = horizon.length === 0 || horizon.length === SKYLINE_POINTS
  const corners = isByPoints && isWhole ? null : horizon.length
  const numbers = Object.entries({ latitudeDeg, longitudeDeg, heightM, skyMag }).map(([key, n]) => [key, String(n)])
  const values = {
    ...Object.fromEntries(numbers),
    name,
    zone,
    glowRows: String(Math.max(FEWEST_GLOWS, glow.length)),
    ...(corners !== null && { cornerRows: String(corners) }),
  }
  return withRows(values, {
    glow: glow.map(({ fromDeg, toDeg, brighterMag }) => ({
      fromDeg: bearingText(words, fromDeg),
      toDeg: bearingText(words, toDeg),
      brighterMag: String(brighterMag),
    })),
    horizon: horizon.map((point) => cornerValues(point, corners !== null, words)),
  })
}

/** A blank row of the compass points stands for open horizon. */
function cornerValues(
  { azimuthDeg, altitudeDeg, name }: SiteDraft['horizon'][number],
  isCorner: boolean,
  words: Words,
): FormValues {
  if (isCorner) return { azimuthDeg: bearingText(words, azimuthDeg), altitudeDeg: String(altitudeDeg), name }
  return altitudeDeg === 0 && name === '' ? {} : { altitudeDeg: String(altitudeDeg), name }
}
