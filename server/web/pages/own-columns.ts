import type { Problem } from '../../errors.ts'
import type { OwnObjectDraft } from '../../tours/own-object.ts'

/** The columns of a list by the field that each fills, in the order in which they are told. */
export const OWN_COLUMNS = {
  name: 'name',
  kind: 'kind',
  ra: 'raDeg',
  dec: 'decDeg',
  magnitude: 'magnitude',
  width_arcmin: 'majorArcmin',
  height_arcmin: 'minorArcmin',
  stars: 'starCount',
  brightest_star: 'brightestStarMag',
  second_magnitude: 'secondMagnitude',
  separation_arcsec: 'separationArcsec',
  colour: 'colour',
  second_colour: 'secondColour',
  condensation: 'condensation',
  field_deg: 'fieldDeg',
  distance_ly: 'distanceLy',
  from: 'fromAt',
  to: 'toAt',
  from_direction: 'fromPoint',
  to_direction: 'toPoint',
  appeal: 'appeal',
  why: 'appealReason',
} as const satisfies Readonly<Record<string, keyof OwnObjectDraft>>
export type OwnColumn = keyof typeof OWN_COLUMNS

/** True for the name of a column. */
export const isOwnColumn = (name: string): name is OwnColumn => Object.hasOwn(OWN_COLUMNS, name)

/** The column that fills a field; the field itself where none does. */
export const columnOf = (field: string): string =>
  Object.entries(OWN_COLUMNS).find(([, filled]) => filled === field)?.[0] ?? field

/** Something wrong with a list: its line, counted from 1, and its column, '' where it is about the whole line. */
export interface LineProblem extends Pick<Problem, 'key' | 'values'> {
  readonly line: number
  readonly column: string
}
