/** What a host may enter: everything that has a place of its own for telescopes, and a sight for bare eyes that passes. */
export const OWN_KINDS = [
  'open-cluster',
  'globular',
  'galaxy',
  'planetary',
  'nebula',
  'remnant',
  'double',
  'star',
  'red-star',
  'asterism',
  'comet',
  'bare-eye',
] as const
export type OwnKind = (typeof OWN_KINDS)[number]

/** What only some kinds have; name, kind, magnitude, appeal and its reason are asked of all. */
export const KIND_FIELDS = [
  'raDeg',
  'decDeg',
  'majorArcmin',
  'minorArcmin',
  'starCount',
  'brightestStarMag',
  'secondMagnitude',
  'separationArcsec',
  'colour',
  'secondColour',
  'condensation',
  'fieldDeg',
  'distanceLy',
  'fromAt',
  'toAt',
  'fromPoint',
  'toPoint',
] as const
type KindField = (typeof KIND_FIELDS)[number]

interface Asked {
  readonly needs: readonly KindField[]
  readonly may: readonly KindField[]
}

const PLACE = ['raDeg', 'decDeg'] as const
const CLOUD: Asked = { needs: [...PLACE, 'majorArcmin'], may: ['minorArcmin', 'distanceLy'] }
const POINT: Asked = { needs: PLACE, may: ['distanceLy'] }

const ASKED: Readonly<Record<OwnKind, Asked>> = {
  'open-cluster': { needs: [...PLACE, 'majorArcmin'], may: ['starCount', 'brightestStarMag', 'distanceLy'] },
  globular: { needs: [...PLACE, 'majorArcmin'], may: ['distanceLy'] },
  galaxy: CLOUD,
  planetary: CLOUD,
  nebula: CLOUD,
  remnant: CLOUD,
  double: { needs: [...PLACE, 'secondMagnitude', 'separationArcsec'], may: ['colour', 'secondColour', 'distanceLy'] },
  star: POINT,
  'red-star': POINT,
  asterism: { needs: [...PLACE, 'fieldDeg'], may: [] },
  comet: { needs: [...PLACE, 'majorArcmin', 'condensation'], may: [] },
  'bare-eye': { needs: ['fromAt', 'toAt', 'fromPoint', 'toPoint'], may: [] },
}

/** True for a kind that a host may enter. */
export const isOwnKind = (kind: unknown): kind is OwnKind => OWN_KINDS.some((it) => it === kind)

/** True for a field that only some kinds have. */
export const isKindField = (field: string): field is KindField => KIND_FIELDS.some((it) => it === field)

/** True when a thing of the kind cannot be entered without the field. */
export const isNeeded = (kind: OwnKind, field: KindField): boolean => ASKED[kind].needs.includes(field)

/** True when the field says something of a thing of the kind. */
export const isAskedOf = (kind: OwnKind, field: KindField): boolean =>
  isNeeded(kind, field) || ASKED[kind].may.includes(field)

/** The kinds of which the field says something. */
export const kindsAskedFor = (field: KindField): readonly OwnKind[] =>
  OWN_KINDS.filter((kind) => isAskedOf(kind, field))
