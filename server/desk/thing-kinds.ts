import type { SourceClass } from '../../db/catalogue/outreach-sources.ts'
import type { ChartStar } from '../../db/objects.ts'
import type { InMonth } from '../tours/good-month.ts'
import type { Season } from '../tours/season.ts'
import type { Site } from '../tours/site.ts'
import type { ObjectHit, ObjectKind, ShowObject } from '../tours/target.ts'
import type { Telescope } from '../tours/telescope.ts'

/** When a thing is a sight of the evening, and what one month shows of it. */
export interface Seasonal extends InMonth {
  readonly season: Season
}

/** From where, and for which month (`YYYY-MM`); null takes the site of the night at hand and the month that it is. */
export interface Whence {
  readonly siteId: string | null
  readonly month: string | null
}

/** What a list is to hold; null and '' ask for nothing in particular. */
export interface ThingQuery extends Whence {
  readonly text: string
  readonly kind: ObjectKind | null
  readonly constellation: string | null
  /** A month, 1 to 12, of which it must be a sight of the evening. */
  readonly evening: number | null
  readonly isGoodOnly: boolean
  /** From 1; one beyond the last answers the last. */
  readonly page: number
  readonly perPage: number
}

/** The place, the month and the telescopes that an answer holds for. */
export interface Standpoint {
  readonly site: Site
  readonly month: string
  /** The telescopes of the kit; none while there are none, and 150 mm is reckoned with. */
  readonly telescopes: readonly Telescope[]
  /** True when the evening of the month is dark for an hour before it ends. */
  readonly isDark: boolean
}

/** One thing from one place; `seasonal` is null for a star that is not on the list. */
export interface OneThing extends Omit<Standpoint, 'isDark'> {
  readonly season: Season | null
  readonly seasonal: Seasonal | null
}

/** A row of a list: `object` and `seasonal` are null for a star that is not on the list. */
export interface ListedThing {
  readonly hit: ObjectHit
  readonly object: ShowObject | null
  readonly seasonal: Seasonal | null
}

/** A page of a list: what to show first first, or by how well the words were met. */
export interface ThingList extends Standpoint {
  readonly total: number
  readonly page: number
  readonly pages: number
  readonly things: readonly ListedThing[]
  /** The constellations in which anything of the whole list stands. */
  readonly constellations: readonly string[]
}

/** A thing beside another: how far, and in which direction of the sky in degrees from north through east. */
export interface NearThing {
  readonly object: ShowObject
  readonly separationDeg: number
  readonly directionDeg: number
}

/** A star of the catalogue that is not on the list. */
export interface StarFacts {
  readonly otherNames: readonly string[]
  readonly bv: number | null
  readonly parallaxMas: number
}

export type SourceCounts = Readonly<Record<SourceClass, number>>

/** Browsing the list apart from any night. */
export interface ThingDesk {
  /** The places that a list may be asked for: the host's sites, or two that nobody wrote while there is none. */
  places(): readonly Site[]
  /** A page of the list, or of what a search answers. */
  list(query: ThingQuery): Promise<ThingList>
  /** One thing in one month; not-found for a strange site. */
  one(thing: ShowObject | ObjectHit, whence: Whence): Promise<OneThing>
  /** The stars of the star table that belong into its picture, brightest first. */
  stars(thing: ShowObject | ObjectHit): readonly ChartStar[]
  star(key: string): StarFacts | undefined
  near(key: string, limit: number): readonly NearThing[]
  sourceCounts(object: ShowObject): SourceCounts
}
