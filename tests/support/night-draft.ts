import type { Night, NightDraft } from '../../server/tours/night.ts'

/** A kept night as the host would type it in again. */
export const draftOf = ({ site, stations, id: _id, state: _state, ...night }: Night): NightDraft => ({
  ...night,
  siteId: site.id,
  stations: stations.map(({ id: _stationId, telescope, ...station }) => ({
    ...station,
    telescopeId: telescope?.id ?? null,
  })),
})
