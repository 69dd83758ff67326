import type { OwnObjectDraft } from '../../server/tours/own-object.ts'

/** An invented comet of magnitude 4, high in the middle of a northern evening in December. */
export const A_COMET_DRAFT: OwnObjectDraft = {
  name: 'Comet Häberli',
  kind: 'comet',
  raDeg: 30,
  decDeg: 40,
  magnitude: 4,
  comaArcmin: 12,
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
