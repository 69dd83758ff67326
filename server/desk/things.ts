import { sourceCounts } from '../../db/catalogue/outreach.ts'
import type { StarStore } from '../../db/stars.ts'
import type { Clock } from '../clock.ts'
import { starsIn, starsWanted } from '../drawings/thing-stars.ts'
import { notFound } from '../errors.ts'
import { directionDeg } from '../sky/direction.ts'
import { calendarDate } from '../tours/hours.ts'
import { PLAIN_SITES } from '../tours/plain-sites.ts'
import { fixedSeason, monthOfYear, yearOfEvenings } from '../tours/season.ts'
import { placeOf, type Site } from '../tours/site.ts'
import type { ObjectHit } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { NearThing, ThingDesk, Whence } from './thing-kinds.ts'
import { thingList } from './thing-list.ts'
import { monthShelf, type ShelfNeeds } from './thing-shelf.ts'

export type ThingNeeds = ShelfNeeds & {
  readonly clock: Clock
  readonly stars: StarStore
  readonly looked: Pick<Desk['objects'], 'search' | 'near' | 'show'>
  readonly sites: Desk['sites']
  readonly nights: Desk['nights']
}

/** Browsing the list apart from any night. */
export function thingDesk(needs: ThingNeeds): ThingDesk {
  const { stars, looked } = needs
  const shelf = monthShelf(needs)
  const standing = standingIn(needs)
  return {
    places: () => placesOf(needs.sites),
    list: async (query) => thingList({ search: looked.search, shelf, ...standing(query) }, query),
    async one(thing, whence) {
      const at = standing(whence)
      if (!('appeal' in thing)) return { ...at, telescopes: [], season: starSeason(thing, at), seasonal: null }
      const { telescopes, things } = await shelf.one(at, thing)
      const seasonal = things.find(({ key }) => key === thing.key)
      if (seasonal === undefined) throw notFound('object')
      return { ...at, telescopes, season: seasonal.season, seasonal }
    },
    stars: (thing) => starsIn(stars, starsWanted(thing)),
    star(key) {
      const found = stars.chart(key)
      return found && { bv: found.bv, parallaxMas: found.parallaxMas, otherNames: stars.otherNames(key) }
    },
    near: (key, limit) => nearThings(looked.show(key), looked.near(key, limit)),
    sourceCounts: (object) => sourceCounts([object]),
  }
}

/** When a star that is not on the list is a sight of the evening. */
function starSeason({ raDeg, decDeg }: ObjectHit, { site, month }: { readonly site: Site; readonly month: string }) {
  if (raDeg === null || decDeg === null) return null
  const place = placeOf(site)
  return fixedSeason({ raDeg, decDeg }, place, yearOfEvenings(monthOfYear(month), place))
}

function placesOf(sites: Desk['sites']): readonly Site[] {
  const all = sites.all()
  return all.length > 0 ? all : PLAIN_SITES
}

/** The site meant, without one that of the night under way, to come or last, and the month meant or the one that it is there. */
const standingIn =
  ({ sites, nights, clock }: Pick<ThingNeeds, 'sites' | 'nights' | 'clock'>) =>
  ({ siteId, month }: Whence): { readonly site: Site; readonly month: string } => {
    const places = placesOf(sites)
    const near = places.find(({ id }) => id === nights.current()?.site.id) ?? sites.all().at(-1) ?? places[0]
    const site = siteId === null ? near : places.find(({ id }) => id === siteId)
    if (site === undefined) throw notFound('site')
    return { site, month: month ?? calendarDate(clock.now(), site.zone).slice(0, 7) }
  }

function nearThings(from: ReturnType<Desk['objects']['show']>, near: ReturnType<Desk['objects']['near']>): NearThing[] {
  if (from === undefined || from.raDeg === null || from.decDeg === null) return []
  const here = { raDeg: from.raDeg, decDeg: from.decDeg }
  return near.flatMap(({ object, separationDeg: apartDeg }) => {
    const { raDeg, decDeg } = object
    if (raDeg === null || decDeg === null) return []
    return [{ object, separationDeg: apartDeg, directionDeg: directionDeg(here, { raDeg, decDeg }) }]
  })
}
