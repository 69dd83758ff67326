import { type Static, Type } from 'typebox'

/** How the mount moves: driven in altitude and azimuth, pushed by hand, or driven about the pole. */
export const MountKind = Type.Union([
  Type.Literal('altaz-driven'),
  Type.Literal('altaz-hand'),
  Type.Literal('equatorial'),
])
export type MountKind = Static<typeof MountKind>

/** How a seated visitor reaches the eyepiece: from the side, with the tripod legs folded in, or not at all. */
export const ChairReach = Type.Union([Type.Literal('side'), Type.Literal('folded'), Type.Literal('no')])

/** Lengths in millimetres; the apparent field in degrees; the field stop where the maker gives it. */
export const EyepieceDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 40 }),
  focalLengthMm: Type.Number({ minimum: 2, maximum: 60 }),
  apparentFieldDeg: Type.Number({ minimum: 20, maximum: 120 }),
  fieldStopMm: Type.Union([Type.Number({ minimum: 1, maximum: 50 }), Type.Null()]),
})

/** A tube: aperture and focal length in mm, obstruction as a ratio of diameters, transmission of light as a share. */
export const TubeDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 40 }),
  design: Type.Union([Type.Literal('refractor'), Type.Literal('reflector'), Type.Literal('catadioptric')]),
  apertureMm: Type.Number({ minimum: 20, maximum: 1500 }),
  focalLengthMm: Type.Number({ minimum: 100, maximum: 10000 }),
  obstruction: Type.Number({ minimum: 0, maximum: 0.6 }),
  transmission: Type.Number({ minimum: 0.3, maximum: 1 }),
  hasDiagonal: Type.Boolean(),
})

/** A telescope of the kit: one mount, one or two tubes side by side, and the eyepieces that serve all its tubes. */
export const TelescopeDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 60 }),
  mount: MountKind,
  tubes: Type.Array(TubeDraft, { minItems: 1, maxItems: 2 }),
  eyepieces: Type.Array(EyepieceDraft, { minItems: 1, maxItems: 12 }),
  /** Height of the altitude axis above ground in cm, legs shortest and longest. */
  axisLowCm: Type.Number({ minimum: 20, maximum: 250 }),
  axisHighCm: Type.Number({ minimum: 20, maximum: 250 }),
  chairReach: ChairReach,
  floorDeg: Type.Number({ minimum: 0, maximum: 45 }),
  ceilingDeg: Type.Number({ minimum: 45, maximum: 90 }),
})
export type TelescopeDraft = Static<typeof TelescopeDraft>

export interface Tube extends Readonly<Static<typeof TubeDraft>> {
  readonly id: string
}
export interface Eyepiece extends Readonly<Static<typeof EyepieceDraft>> {
  readonly id: string
}
export interface Telescope extends Readonly<Omit<TelescopeDraft, 'tubes' | 'eyepieces'>> {
  readonly id: string
  readonly tubes: readonly Tube[]
  readonly eyepieces: readonly Eyepiece[]
}
