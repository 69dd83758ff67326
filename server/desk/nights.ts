import type { Clock } from '../clock.ts'
import { invalid, notFound, type Problem } from '../errors.ts'
import { nightHours } from '../tours/hours.ts'
import type { Night, NightDraft, NightState, Station } from '../tours/night.ts'
import { nightProblems } from '../tours/problems.ts'
import type { Site } from '../tours/site.ts'
import type { Telescope } from '../tours/telescope.ts'
import { newId } from './ids.ts'
import type { Stores } from './stores.ts'

/** Keeping nights, and the night to open on the board. */
export interface NightDesk {
  all(): readonly Night[]
  find(id: string): Night
  /** The zone of the night's site, without reading the night. */
  zoneOf(id: string): string
  /** The night to open on the board by the evening's clock; see `currentOf`. */
  current(): Night | undefined
  add(draft: NightDraft): Night
  change(id: string, draft: NightDraft): Night
  /** Every station that the night has ever had, those out of the row included. */
  everyStation(id: string): readonly Station[]
}

type Needs = Pick<Stores, 'nights' | 'sites' | 'telescopes'> & { readonly clock: Clock }

export function nightDesk({ nights, sites, telescopes, clock }: Needs): NightDesk {
  const find: NightDesk['find'] = (id) => {
    const night = nights.find(id)
    if (!night) throw notFound('night')
    return night
  }

  function whole(draft: NightDraft, id: string, state: NightState, before: readonly Station[]): Night {
    const site = sites.find(draft.siteId)
    const kit = draft.stations.map(({ telescopeId }) => (telescopeId === null ? null : telescopes.find(telescopeId)))
    const missing = [...(site ? [] : [{ field: 'siteId', key: 'problem.site-unknown' }]), ...kitProblems(kit, before)]
    const problems = [...nightProblems(draft, clock.now(), site?.zone ?? 'UTC'), ...missing]
    if (problems.length > 0 || !site) throw invalid(problems)
    return nightFrom(draft, id, state, site, stationsFrom(draft, kit, before))
  }

  return {
    all: nights.all,
    find,
    zoneOf(id) {
      const zone = nights.zoneOf(id)
      if (zone === undefined) throw notFound('night')
      return zone
    },
    everyStation: (id) => nights.everyStation(find(id).id),
    current: () => currentOf(nights.all(), clock.now()),
    add(draft) {
      const night = whole(draft, newId(), 'planned', [])
      nights.add(night)
      return find(night.id)
    },
    change(id, draft) {
      const before = find(id)
      if (before.state === 'closed') throw invalid([{ field: 'state', key: 'problem.night-closed' }])
      nights.change(whole(draft, id, before.state, before.stations))
      return find(id)
    },
  }
}

/** A telescope that is nowhere, or that is put away and was not in the row before. */
const kitProblems = (kit: readonly (Telescope | null | undefined)[], before: readonly Station[]): Problem[] =>
  kit.flatMap((telescope, i): Problem[] => {
    const field = `stations.${i}.telescopeId`
    if (telescope === undefined) return [{ field, key: 'problem.telescope-unknown' }]
    const wasThere = before.some((station) => station.telescope?.id === telescope?.id)
    const isAway = telescope?.isPutAway === true && !wasThere
    return isAway ? [{ field, key: 'problem.telescope-away', values: { name: telescope.name } }] : []
  })

function nightFrom(draft: NightDraft, id: string, state: NightState, site: Site, stations: Station[]): Night {
  const { siteId: _siteId, stations: _stations, ...rest } = draft
  return { ...rest, id, state, site, stations }
}

/** The row of a draft; a station that stood there before under the same name, else at the same place, keeps its id. */
function stationsFrom(
  draft: NightDraft,
  kit: readonly (Telescope | null | undefined)[],
  before: readonly Station[],
): Station[] {
  const names = new Set(draft.stations.map(({ name }) => name))
  const free = new Set(before)
  const take = (fits: (station: Station) => boolean): string | undefined => {
    const found = [...free].find(fits)
    if (found) free.delete(found)
    return found?.id
  }
  const byName = draft.stations.map(({ name }) => take((station) => station.name === name))
  return draft.stations.map(({ telescopeId: _telescopeId, ...station }, i) => {
    const sameSpot = before[i]
    const id = byName[i] ?? take((other) => other === sameSpot && !names.has(other.name)) ?? newId()
    return { ...station, id, telescope: kit[i] ?? null }
  })
}

const DAY_MS = 86_400_000
/** People look on the board for word of a night that is off, from a day before it until it would have closed. */
const isToday = (opensAt: Date, closesAt: Date, now: Date): boolean =>
  opensAt.getTime() - now.getTime() < DAY_MS && now <= closesAt

const HOUR_MS = 3_600_000
/** The report is written that night or the morning after it, unless another night comes near. */
const LOOKED_BACK_HOURS = 12
const NEAR_HOURS = 6

/** The night under way at the instant or near, else the one just over, else the next, else the last; undefined without nights. One that is off counts on its day alone. */
export function currentOf(nights: readonly Night[], now: Date): Night | undefined {
  const dated = nights
    .map((night) => ({ night, ...nightHours(night) }))
    .filter(({ night, opensAt, closesAt }) => night.state !== 'off' || isToday(opensAt, closesAt, now))
  const isOff = ({ night }: { readonly night: Night }): boolean => night.state === 'off'
  dated.sort((a, b) => a.opensAt.getTime() - b.opensAt.getTime() || Number(isOff(a)) - Number(isOff(b)))
  const hoursSince = (at: Date): number => (now.getTime() - at.getTime()) / HOUR_MS
  const ahead = dated.filter(({ closesAt }) => closesAt >= now)
  const [next] = ahead
  const near =
    ahead.find(({ opensAt }) => -hoursSince(opensAt) <= NEAR_HOURS) ?? (next && isOff(next) ? next : undefined)
  const justOver = dated.findLast(
    ({ night, closesAt }) => night.state !== 'closed' && closesAt < now && hoursSince(closesAt) <= LOOKED_BACK_HOURS,
  )
  return (near ?? justOver ?? next ?? dated.at(-1))?.night
}
