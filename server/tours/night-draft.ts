import { Value } from 'typebox/value'
import { instantOf, nightHours } from './hours.ts'
import { type Night, type NightDraft, WallClock } from './night.ts'

const HALF_HOUR_MS = 1_800_000

/** A kept night as the host would type it in again. */
export const draftOf = ({ site, stations, id: _id, state: _state, ...night }: Night): NightDraft => ({
  ...night,
  siteId: site.id,
  stations: stations.map(({ id: _stationId, telescope, ...station }) => ({
    ...station,
    telescopeId: telescope?.id ?? null,
  })),
})

/** The same night with other public hours as they were typed; people expected in half hours that fall away are left out. */
export function withHours(night: Night, { opens, closes }: Pick<Night, 'opens' | 'closes'>): NightDraft {
  const draft = { ...draftOf(night), opens, closes }
  if (![opens, closes].every((time) => Value.Check(WallClock, time))) return draft
  const moved = { ...draft, site: night.site }
  const { opensAt, closesAt } = nightHours(moved)
  const isInside = (startsAt: Date) => startsAt < closesAt && startsAt.getTime() + HALF_HOUR_MS > opensAt.getTime()
  return { ...draft, visitors: night.visitors.filter((row) => isInside(instantOf(moved, row.startsAt))) }
}
