import type { DemoEvening } from '../../seed-demo/evening.ts'
import { north } from '../../seed-demo/north.ts'
import { south } from '../../seed-demo/south.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Telescope, TelescopeDraft } from '../../server/tours/telescope.ts'

/** A telescope as a desk would answer it, with ids that say what they stand for. */
export const telescopeOf = (draft: TelescopeDraft, id: string): Telescope => ({
  ...draft,
  id,
  tubes: draft.tubes.map((tube, i) => ({ ...tube, id: `${id}-tube-${i}` })),
  eyepieces: draft.eyepieces.map((eyepiece, i) => ({ ...eyepiece, id: `${id}-eyepiece-${i}` })),
  factors: (draft.factors ?? []).map((factor, i) => ({ ...factor, id: `${id}-factor-${i}` })),
})

/** A demo evening as the night that a desk would answer, with ids that say what they stand for. */
export function nightOf({ site, telescopes, night }: DemoEvening): Night {
  const kit = telescopes.map((draft, i) => telescopeOf(draft, `telescope-${i}`))
  const { siteId, stations, ...rest } = night
  return {
    ...rest,
    id: `night-${night.date}`,
    state: 'planned',
    site: { ...site, id: siteId },
    stations: stations.map(({ telescopeId, ...station }, i) => ({
      ...station,
      id: `station-${i}`,
      telescope: telescopeId === null ? null : (kit[Number(telescopeId)] ?? null),
    })),
  }
}

/** 47 N, 17 December 2026: first-quarter Moon and Saturn, four telescopes, ninety visitors. */
export const demoNight = nightOf(north)
/** 34 S, 10 July 2027: first-quarter Moon high in the north, Jupiter sinking, three telescopes. */
export const southernNight = nightOf(south)
