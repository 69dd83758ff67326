import type { FieldSubject, FieldView } from '../../server/drawings/field.ts'
import { fieldDrawing } from '../../server/drawings/field.ts'
import type { Tube } from '../../server/tours/telescope.ts'
import { ENGLISH } from './page-data.ts'
import { showObject } from './show-objects.ts'

const TUBE: Tube = {
  id: 'tube',
  name: 'Main tube',
  design: 'reflector',
  apertureMm: 200,
  focalLengthMm: 1200,
  obstruction: 0.25,
  transmission: 0.8,
  hasDiagonal: false,
}
export const NEWTONIAN = TUBE
export const WITH_DIAGONAL: Tube = { ...TUBE, design: 'refractor', hasDiagonal: true }
export const STRAIGHT: Tube = { ...TUBE, design: 'refractor', hasDiagonal: false }

/** A tube with an eyepiece that shows so wide a field. */
export const viewWith = (tube: Tube, trueFieldDeg: number): FieldView => ({
  tube,
  setup: { tubeId: tube.id, eyepieceId: 'eyepiece', powerX: 48, trueFieldDeg },
  eyepieceName: '25 mm',
  telescopeName: 'Eight inch',
})

export const BONN = { latitudeDeg: 50.7, longitudeDeg: 7.1, heightM: 60 }
export const CAPE_TOWN = { latitudeDeg: -33.9, longitudeDeg: 18.4, heightM: 10 }

/** A field of one degree of a reflector at Bonn with what is given changed. */
export const fieldSubject = (
  thing: Parameters<typeof showObject>[0],
  given: Partial<Omit<FieldSubject, 'thing'>> = {},
): FieldSubject => ({
  thing: showObject(thing),
  stars: [],
  views: [viewWith(NEWTONIAN, 1)],
  at: new Date('2026-11-20T18:30:00Z'),
  zone: 'Europe/Berlin',
  place: BONN,
  layout: 'column',
  idPrefix: 'a',
  ...given,
})

/** The drawing of a field that can be drawn, and its first circle. */
export function drawnFieldOf(
  thing: Parameters<typeof showObject>[0],
  given: Partial<Omit<FieldSubject, 'thing'>> = {},
) {
  const drawing = fieldDrawing(fieldSubject(thing, given), ENGLISH)
  const [circle] = drawing?.circles ?? []
  if (!drawing || !circle) throw new Error('This has a picture')
  return { ...drawing, circle }
}

/** The direction of a second place of the paper from a first, in degrees clockwise from up. */
export const directionOnPaper = (from: { x: number; y: number }, to: { x: number; y: number }): number =>
  (Math.atan2(to.x - from.x, from.y - to.y) * 180) / Math.PI

/** The angle between two directions, 0 to 180. */
export const turnBetween = (one: number, other: number): number => Math.abs(((((one - other) % 360) + 540) % 360) - 180)
