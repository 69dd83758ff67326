import { type OwnObjectDraft, type OwnThing, ownObject } from '../../server/tours/own-object.ts'

/** An invented comet of magnitude 4, high in the middle of a northern evening in December. */
export const A_COMET_DRAFT: OwnObjectDraft = {
  name: 'Comet Häberli',
  kind: 'comet',
  raDeg: 30,
  decDeg: 40,
  magnitude: 4,
  majorArcmin: 12,
  condensation: 6,
  appeal: 0.95,
  appealReason: 'It is here this month and not again in our lives.',
}

/** An invented star that has flared up. */
export const A_NOVA_DRAFT: OwnObjectDraft = {
  name: 'New star in the Swan',
  kind: 'star',
  raDeg: 310,
  decDeg: 45,
  magnitude: 5,
  appeal: 0.5,
  appealReason: 'It was not there last week.',
}

/** An invented cluster with everything that a cluster may have. */
export const A_CLUSTER_DRAFT: OwnObjectDraft = {
  ...A_NOVA_DRAFT,
  name: "Kate's Cluster",
  kind: 'open-cluster',
  majorArcmin: 25,
  starCount: 60,
  brightestStarMag: 8,
  distanceLy: 1600,
}

/** An invented galaxy that is not round. */
export const A_GALAXY_DRAFT: OwnObjectDraft = {
  ...A_NOVA_DRAFT,
  name: 'Our Spindle',
  kind: 'galaxy',
  magnitude: 9,
  majorArcmin: 8,
  minorArcmin: 3,
}

/** An invented double star of two colours. */
export const A_DOUBLE_DRAFT: OwnObjectDraft = {
  ...A_NOVA_DRAFT,
  name: 'The Two Lanterns',
  kind: 'double',
  magnitude: 3,
  secondMagnitude: 3,
  separationArcsec: 34,
  colour: 'gold',
  secondColour: 'blue',
}

/** An invented pattern of stars. */
export const A_PATTERN_DRAFT: OwnObjectDraft = { ...A_NOVA_DRAFT, name: 'The Kite', kind: 'asterism', fieldDeg: 1.5 }

/** A pass in the public hours of the night of the tests. */
export const A_PASS_DRAFT: OwnObjectDraft = {
  name: 'Space station, first pass',
  kind: 'bare-eye',
  magnitude: -3.1,
  fromAt: '2026-11-20T18:12:10.000Z',
  toAt: '2026-11-20T18:18:30.000Z',
  fromPoint: 12,
  toPoint: 3,
  appeal: 0.7,
  appealReason: 'People wave to it.',
}

/** A draft as the desk answers it. */
export const ownThing = (draft: OwnObjectDraft, more: Partial<OwnThing> = {}): OwnThing => {
  const key = more.key ?? `own-${draft.kind}`
  return { key, isListed: true, draft, object: ownObject(draft, key), ...more }
}
