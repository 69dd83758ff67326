import type { Problem } from '../../errors.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { POINT_DEG, POINTS } from '../../tours/pointing.ts'
import { siteProblems } from '../../tours/problems.ts'
import { type Site, type SiteDraft, SKY_CLASSES, type Town } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { bearingDeg, bearingText } from '../pages/bearing.ts'
import { FEWEST_GLOWS, MOST_CORNERS, MOST_GLOWS, type SiteRowCounts } from '../pages/site-rows.ts'
import { type FormValues, filledRows, numberOf, rowCount, withRows } from './form-values.ts'
import type { TypedSpot } from './site-place.ts'
import { horizonOf } from './site-skyline.ts'

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

/** `1,200` might be a metre and a fifth or the top of a hill: nobody guesses which. */
const heightOf = (text = ''): number => (/^\d[.,'’ ]\d{3}$/.test(text.trim()) ? Number.NaN : numberOf(text))

/** A site from its form, with `values` as `siteRows` and `withSky` give them and its place as `typedSpot` read it. */
export function siteDraftOf(
  values: FormValues,
  { latitudeDeg, longitudeDeg, zone }: TypedSpot,
  words: Words,
): SiteDraft {
  return {
    name: (values.name ?? '').trim(),
    latitudeDeg,
    longitudeDeg,
    heightM: heightOf(values.heightM),
    zone,
    skyMag: numberOf(values.skyMag),
    horizon: horizonOf(values, words),
    glow: filledRows(values, 'glow', () => true).map((row) => ({
      fromDeg: bearingDeg(words, row.fromDeg ?? ''),
      toDeg: bearingDeg(words, row.toDeg ?? ''),
      brighterMag: numberOf(row.brighterMag),
    })),
  }
}

const BEARING = /^(glow\.\d+\.(from|to)|horizon\.\d+\.azimuth)Deg$/
const HEIGHT = /^horizon\.\d+\.altitudeDeg$/
const PLACE = ['latitudeDeg', 'longitudeDeg']

/**
 * What is wrong with a site in the words of its form, where a place, a direction and a height may be written in many ways.
 * A zone left blank is filled in once the place is understood.
 */
export function siteFormProblems(draft: SiteDraft, spot: TypedSpot): Problem[] {
  const isSaid = ({ field, key }: Problem): boolean =>
    PLACE.includes(field) || key === 'problem.zone-unknown' || (field === 'zone' && draft.zone === '')
  const others = siteProblems(draft).filter((problem) => !isSaid(problem))
  return [...spot.problems, ...others.map(inFormWords)]
}

function inFormWords({ field, key, values = {} }: Problem): Problem {
  const isUnread = /^problem\.(type|range|required)$/.test(key)
  if (isUnread && field === 'heightM' && key !== 'problem.range') return { field, key: 'problem.site-height' }
  if (isUnread && BEARING.test(field)) return { field, key: 'problem.bearing' }
  if (!isUnread || !HEIGHT.test(field)) return { field, key, values }
  return { field, key: key === 'problem.range' ? 'problem.skyline-high' : 'problem.skyline-height' }
}

/** What a town of the gazetteer fills in of the form of a site. */
export const townValues = (town: Town): FormValues => ({
  ...NEW_SITE,
  latitudeDeg: String(town.latitudeDeg),
  longitudeDeg: String(town.longitudeDeg),
  heightM: String(town.heightM),
  zone: town.zone,
  'town.name': town.name,
  'town.latitudeDeg': String(town.latitudeDeg),
  'town.longitudeDeg': String(town.longitudeDeg),
})

/** The values of the form of a kept site. A skyline that is not one by compass points is shown by its own corners. */
export function siteValues(site: Site, words: Words): FormValues {
  const { name, latitudeDeg, longitudeDeg, heightM, zone, skyMag, horizon, glow } = site
  const isByPoints = horizon.length === 0 || horizon.every(({ azimuthDeg }, i) => azimuthDeg === POINT_DEG * i)
  const isWhole = horizon.length === 0 || horizon.length === POINTS.length
  const corners = isByPoints && isWhole ? null : horizon.length
  const numbers = Object.entries({ latitudeDeg, longitudeDeg, heightM, skyMag }).map(([key, n]) => [
    key,
    words.figures(String(n)),
  ])
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
  if (isCorner)
    return { azimuthDeg: bearingText(words, azimuthDeg), altitudeDeg: words.figures(String(altitudeDeg)), name }
  return altitudeDeg === 0 && name === '' ? {} : { altitudeDeg: words.figures(String(altitudeDeg)), name }
}
