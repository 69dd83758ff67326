import { Value } from 'typebox/value'
import { QUARTERS_DEG, type QuarterDeg, tappedCorner } from '../../drawings/skyline-quarter.ts'
import type { MessageValues } from '../../errors.ts'
import { POINT_DEG, POINTS } from '../../tours/pointing.ts'
import { type SiteDraft, SkylinePoint } from '../../tours/site.ts'
import { heightDeg } from '../../words/heights.ts'
import type { Words } from '../../words/words.ts'
import { bearingDeg, bearingText } from '../pages/bearing.ts'
import { MOST_CORNERS } from '../pages/site-rows.ts'
import type { SkylineNote } from '../pages/site-skyline.ts'
import { type FormValues, filledRows, numberOf, withRows } from './form-values.ts'

/** The skyline of a site's form, by compass points or by corners; what cannot be read is NaN. */
export const horizonOf = (values: FormValues, words: Words): SiteDraft['horizon'] =>
  values.cornerRows === undefined ? byPoints(values, words) : byCorners(values, words)

/** As much of it as can be drawn while it is being typed. */
export const drawnHorizon = (values: FormValues, words: Words): SiteDraft['horizon'] =>
  horizonOf(values, words).filter((point) => Value.Check(SkylinePoint, point))

/** Once one point of the skyline is filled in, every blank one is open horizon. */
function byPoints(values: FormValues, words: Words): SiteDraft['horizon'] {
  const rows = POINTS.map((point) => ({
    height: values[`horizon.${point}.altitudeDeg`],
    name: (values[`horizon.${point}.name`] ?? '').trim(),
  }))
  if (rows.every(({ height, name }) => height === undefined && name === '')) return []
  return rows.map(({ height, name }, point) => ({
    azimuthDeg: POINT_DEG * point,
    altitudeDeg: height === undefined && name === '' ? 0 : heightDeg(words, height ?? ''),
    name,
  }))
}

const byCorners = (values: FormValues, words: Words): SiteDraft['horizon'] =>
  filledRows(values, 'horizon', () => true).map((row) => ({
    azimuthDeg: bearingDeg(words, row.azimuthDeg ?? ''),
    altitudeDeg: heightDeg(words, row.altitudeDeg ?? ''),
    name: row.name ?? '',
  }))

/** The form with a skyline of these corners, each row as it was typed. */
export const withCorners = (values: FormValues, rows: readonly FormValues[]): FormValues => ({
  ...withRows(values, { horizon: rows }),
  cornerRows: String(Math.max(1, rows.length)),
})

interface Tap {
  readonly fromDeg: QuarterDeg
  readonly xPx: number
  readonly yPx: number
}

/** Where the drawn skyline was tapped, if it was. */
export function tapIn(values: FormValues): Tap | undefined {
  const fromDeg = QUARTERS_DEG.find((quarter) => values[`tap.${quarter}.x`] !== undefined)
  if (fromDeg === undefined) return undefined
  return { fromDeg, xPx: numberOf(values[`tap.${fromDeg}.x`]), yPx: numberOf(values[`tap.${fromDeg}.y`]) }
}

const NEAR_DEG = 2

/**
 * The form with a corner where it was tapped: the height of one that stands there already, else a new one in its order
 * around the compass. A picture that was pressed by a key sends its very corner, which is no tap.
 */
export function withTap(
  values: FormValues,
  { fromDeg, ...at }: Tap,
  words: Words,
): { readonly values: FormValues; readonly note: SkylineNote } {
  if (Number.isNaN(at.xPx + at.yPx) || at.xPx + at.yPx === 0) return { values, note: said('skyline.no-tap') }
  const { azimuthDeg, altitudeDeg } = tappedCorner(fromDeg, at)
  const rows = cornerRows(values, words)
  const degreesOf = (row: FormValues): number => bearingDeg(words, row.azimuthDeg ?? '')
  const awayDeg = (row: FormValues): number => Math.abs(((degreesOf(row) - azimuthDeg + 540) % 360) - 180)
  const near = rows.filter((row) => awayDeg(row) <= NEAR_DEG).sort((a, b) => awayDeg(a) - awayDeg(b))[0]
  const height = String(altitudeDeg)
  const direction = near?.azimuthDeg ?? bearingText(words, azimuthDeg)
  if (near) {
    const changed = rows.map((row) => (row === near ? { ...row, altitudeDeg: height } : row))
    return {
      values: withCorners(values, changed),
      note: said('skyline.tap-changed', { direction, count: altitudeDeg }),
    }
  }
  if (rows.length >= MOST_CORNERS) return { values, note: said('skyline.tap-full', { most: MOST_CORNERS }) }
  const found = rows.findIndex((row) => degreesOf(row) > azimuthDeg)
  const place = found < 0 ? rows.length : found
  const added = rows.toSpliced(place, 0, { azimuthDeg: direction, altitudeDeg: height })
  return {
    values: withCorners(values, added),
    note: said('skyline.tap-added', { direction, count: altitudeDeg, row: place + 1 }),
  }
}

const said = (key: string, values: MessageValues = {}): SkylineNote => ({ key, values })

/** The filled rows as corners; a skyline by compass points becomes sixteen corners once one of them is filled in. */
function cornerRows(values: FormValues, words: Words): readonly FormValues[] {
  if (values.cornerRows !== undefined) return filledRows(values, 'horizon', () => true)
  if (horizonOf(values, words).length === 0) return []
  return POINTS.map((point) => {
    const [height, name] = [values[`horizon.${point}.altitudeDeg`], values[`horizon.${point}.name`]]
    return {
      azimuthDeg: bearingText(words, POINT_DEG * point),
      ...(height === undefined ? (name === undefined ? { altitudeDeg: '0' } : {}) : { altitudeDeg: height }),
      ...(name === undefined ? {} : { name }),
    }
  })
}
