import { type Static, Type } from 'typebox'
import { type Ocular, withFactor } from '../sight/optics.ts'
import type { Remark } from './tour.ts'

/** How the mount moves: driven in altitude and azimuth, pushed by hand, or driven about the pole. */
export const MountKind = Type.Union([
  Type.Literal('altaz-driven'),
  Type.Literal('altaz-hand'),
  Type.Literal('equatorial'),
])
export type MountKind = Static<typeof MountKind>

/** How a seated visitor reaches the eyepiece: from the side, with the tripod legs folded in, or not at all. */
const ChairReach = Type.Union([Type.Literal('side'), Type.Literal('folded'), Type.Literal('no')])

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

/** A Barlow (factor above 1) or a reducer (below 1) before the eyepiece: the power is multiplied by its factor. */
export const FactorDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 40 }),
  factor: Type.Number({ minimum: 0.3, maximum: 5 }),
})

/** What is looked through to find things: a red dot, lenses straight through, lenses with a right angle, or nothing. */
export const FinderKind = Type.Union([
  Type.Literal('red-dot'),
  Type.Literal('straight'),
  Type.Literal('right-angle'),
  Type.Literal('none'),
])
export type FinderKind = Static<typeof FinderKind>

/** The finder of a telescope; the width of what it shows in degrees and its power are null where they are not known. */
export const Finder = Type.Object({
  kind: FinderKind,
  fieldDeg: Type.Union([Type.Number({ minimum: 0.5, maximum: 20 }), Type.Null()]),
  powerX: Type.Union([Type.Number({ minimum: 1, maximum: 30 }), Type.Null()]),
})
export type Finder = Static<typeof Finder>

/** A telescope of the kit: one mount, one or two tubes side by side, and the eyepieces that serve all its tubes. */
export const TelescopeDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 60 }),
  mount: MountKind,
  tubes: Type.Array(TubeDraft, { minItems: 1, maxItems: 2 }),
  eyepieces: Type.Array(EyepieceDraft, { minItems: 1, maxItems: 12 }),
  /** Left out when there is none. */
  factors: Type.Optional(Type.Array(FactorDraft, { maxItems: 3 })),
  /** Height of the altitude axis above ground in cm, legs shortest and longest. */
  axisLowCm: Type.Number({ minimum: 20, maximum: 250 }),
  axisHighCm: Type.Number({ minimum: 20, maximum: 250 }),
  chairReach: ChairReach,
  floorDeg: Type.Number({ minimum: 0, maximum: 45 }),
  ceilingDeg: Type.Number({ minimum: 45, maximum: 90 }),
  /** Left out where nobody has said. */
  finder: Type.Optional(Finder),
  /** The year in which it came. */
  inKitSince: Type.Optional(Type.Integer({ minimum: 1850, maximum: 2100 })),
  /** What whoever takes it out should know. */
  note: Type.Optional(Type.String({ minLength: 1, maxLength: 300 })),
})
export type TelescopeDraft = Static<typeof TelescopeDraft>

export interface Tube extends Readonly<Static<typeof TubeDraft>> {
  readonly id: string
}
export interface Eyepiece extends Readonly<Static<typeof EyepieceDraft>> {
  readonly id: string
}
export interface Factor extends Readonly<Static<typeof FactorDraft>> {
  readonly id: string
}
export interface Telescope extends Readonly<Omit<TelescopeDraft, 'tubes' | 'eyepieces' | 'factors'>> {
  readonly id: string
  readonly tubes: readonly Tube[]
  readonly eyepieces: readonly Eyepiece[]
  readonly factors: readonly Factor[]
  /** True when it is used no longer: old nights keep it, and no new one is offered it. */
  readonly isPutAway?: boolean
}

/** A telescope as it is typed, with the places of its parts for ids: for what is reckoned before anything is kept. */
export const asTyped = (draft: TelescopeDraft): Telescope => ({
  ...draft,
  id: '',
  tubes: draft.tubes.map((tube, i) => ({ ...tube, id: String(i) })),
  eyepieces: draft.eyepieces.map((eyepiece, i) => ({ ...eyepiece, id: String(i) })),
  factors: (draft.factors ?? []).map((factor, i) => ({ ...factor, id: String(i) })),
})

/** What can be put into a tube: an eyepiece alone, or behind a Barlow or reducer; `label` says which. */
export interface KitOcular extends Ocular {
  readonly id: string
  readonly label: Remark
}

/**
 * Everything that can be put into the tubes of a telescope, each eyepiece alone first; the id is the eyepiece's, or
 * `<eyepiece>*<factor>` behind a Barlow or reducer.
 */
export function ocularsOf({ eyepieces, factors }: Pick<Telescope, 'eyepieces' | 'factors'>): readonly KitOcular[] {
  const alone = eyepieces.map((eyepiece) => ({
    ...eyepiece,
    label: { code: 'ocular.alone', values: { eyepiece: eyepiece.name } },
  }))
  const behind = factors.flatMap((factor) =>
    eyepieces.map((eyepiece) => ({
      ...withFactor(eyepiece, factor.factor),
      id: `${eyepiece.id}*${factor.id}`,
      label: { code: 'ocular.behind', values: { eyepiece: eyepiece.name, factor: factor.name } },
    })),
  )
  return [...alone, ...behind]
}

const SAME_POWER = 0.05

/**
 * Of `ocularsOf` those that a programme may ask for: none behind a Barlow or reducer where an eyepiece alone gives the
 * same power within 5 % and as wide a field (a choice).
 */
export function offeredOculars(telescope: Pick<Telescope, 'eyepieces' | 'factors'>): readonly KitOcular[] {
  const { eyepieces } = telescope
  const isNeedless = ({ focalLengthMm, apparentFieldDeg }: Ocular): boolean =>
    eyepieces.some(
      (alone) =>
        Math.abs(alone.focalLengthMm / focalLengthMm - 1) <= SAME_POWER && alone.apparentFieldDeg >= apparentFieldDeg,
    )
  return ocularsOf(telescope).filter((ocular, i) => i < eyepieces.length || !isNeedless(ocular))
}
