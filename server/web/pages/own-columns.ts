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

/** A list that is as it should be: every thing in it is invented. */
export const OWN_EXAMPLE = `name,kind,ra,dec,magnitude,width_arcmin,height_arcmin,second_magnitude,separation_arcsec,condensation,from,to,from_direction,to_direction,appeal,why
Kate's Cluster,open-cluster,21h 32m 12s,+48° 26',5.6,25,,,,,,,,,0.5,Kate shows it every year
The Club's Spindle,galaxy,184.74,47.30,9.1,8,3,,,,,,,,0.3,Our members like it
The Two Lanterns,double,19h 30.7m,+27° 58',3.2,,,5.1,34,,,,,,0.7,Gold beside blue
Comet of the month,comet,30.5,-12.25,6.5,8,,,,4,,,,,0.8,It will be gone by spring
New star,star,310.2,45.1,5.0,,,,,,,,,,0.5,It was not there last week
Space station,bare-eye,,,-3.1,,,,,,2026-12-17T18:42:10+01:00,2026-12-17T18:48:30+01:00,west,east-north-east,0.7,People wave to it
`
