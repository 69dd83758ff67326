import type { Desk } from '../../server/desk/desk.ts'
import type { ListedThing, OneThing, Seasonal, ThingDesk, ThingList } from '../../server/desk/thing-kinds.ts'
import { notFound } from '../../server/errors.ts'
import type { ObjectHit, ShowObject } from '../../server/tours/target.ts'
import { A_SITE, A_TELESCOPE, AN_OBJECT } from './field-data.ts'

/** The evenings of a thing that half of the newcomers see until an oak hides it. */
export const A_SEASONAL: Seasonal = {
  key: 'm13',
  chance: 0.8,
  telescopeId: A_TELESCOPE.id,
  clear: {
    fromAt: new Date('2026-11-15T16:45:00Z'),
    untilAt: new Date('2026-11-15T18:48:00Z'),
    before: null,
    after: { code: 'skyline', name: 'oak' },
  },
  isGood: true,
  season: { code: 'months', months: [4, 5, 6, 7, 8, 9], highestDeg: 78, neverSets: false, peakAt: null },
}

export const A_STAR: ObjectHit = {
  key: 'hip2',
  name: 'Beta Nowhere',
  kind: 'star',
  constellation: 'Her',
  magnitude: 5.2,
  raDeg: 250,
  decDeg: -36.5,
  isOutreach: false,
}

const LISTED: ListedThing = {
  hit: { ...A_STAR, ...pick(AN_OBJECT), isOutreach: true },
  object: AN_OBJECT,
  seasonal: A_SEASONAL,
}
const UNLISTED: ListedThing = { hit: A_STAR, object: null, seasonal: null }

function pick({ key, name, kind, constellation, magnitude, raDeg, decDeg }: ShowObject) {
  return { key, name, kind, constellation, magnitude, raDeg, decDeg }
}

const AT = { site: A_SITE, month: '2026-11', telescopes: [A_TELESCOPE] }

export const A_LIST: ThingList = {
  ...AT,
  isDark: true,
  total: 2,
  page: 1,
  pages: 1,
  things: [LISTED, UNLISTED],
  constellations: ['Her', 'Vir'],
}

export const ONE_LISTED: OneThing = { ...AT, season: A_SEASONAL.season, seasonal: A_SEASONAL }
export const ONE_UNLISTED: OneThing = {
  ...AT,
  season: { ...A_SEASONAL.season, code: 'never-rises', months: [] },
  seasonal: null,
}

/** A list that holds one thing and knows one star beside it. */
export function fakeThings(sites: Desk['sites']): ThingDesk {
  const known = (siteId: string | null) => {
    if (siteId !== null && !sites.all().some(({ id }) => id === siteId)) throw notFound('site')
  }
  return {
    places: sites.all,
    async list(query) {
      known(query.siteId)
      return { ...A_LIST, page: query.page }
    },
    async one(thing, { siteId }) {
      known(siteId)
      return 'appeal' in thing ? { ...ONE_LISTED, seasonal: { ...A_SEASONAL, key: thing.key } } : ONE_UNLISTED
    },
    stars: () => [],
    star: () => undefined,
    near: () => [],
    sourceCounts: () => ({ published: 1, 'from memory': 2, computed: 0, 'our judgement': 1 }),
  }
}
