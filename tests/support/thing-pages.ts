import type { ListedThing, ThingQuery } from '../../server/desk/thing-kinds.ts'
import type { ThingSubject } from '../../server/drawings/thing.ts'
import { PLAIN_SITES } from '../../server/tours/plain-sites.ts'
import { type ObjectSubject, objectPage } from '../../server/web/pages/object.ts'
import { objectsPage } from '../../server/web/pages/objects.ts'
import { A_LIST, A_STAR, ONE_LISTED, ONE_UNLISTED } from './fake-things.ts'
import { A_NIGHT, A_SITE } from './field-data.ts'
import { HOST, NAMES, VISITOR } from './page-data.ts'
import { showObject } from './show-objects.ts'

/** A question that asks for nothing in particular. */
export const ANY_THING: ThingQuery = {
  siteId: null,
  month: null,
  text: '',
  kind: null,
  constellation: null,
  evening: null,
  isGoodOnly: false,
  page: 1,
  perPage: 30,
}
const [PLAIN_SITE = A_SITE] = PLAIN_SITES
const pictureOf = ({ hit, object }: ListedThing): ThingSubject => ({ thing: object ?? hit, stars: [], bv: 0.6 })
const A_GALAXY = showObject({
  key: 'm81',
  name: "Bode's Galaxy",
  designations: ['M81', 'NGC 3031'],
  kind: 'galaxy',
  constellation: 'UMa',
  raDeg: 148.9,
  decDeg: 69.07,
  magnitude: 6.9,
  majorArcmin: 27,
  minorArcmin: 14,
  angleDeg: 157,
  distanceLy: 12_000_000,
  ageMyr: 13_000,
  bv: null,
  appeal: 0.37,
  note: 'It is the brighter of two.',
  sources: { raDeg: 'RC3', decDeg: 'RC3', magnitude: 'RC3, from memory' },
})
/** A galaxy with all that can be told of one. */
export const A_THING: ObjectSubject = {
  thing: A_GALAXY,
  story: NAMES.story('m13'),
  star: undefined,
  picture: { thing: A_GALAXY, stars: [], bv: null },
  one: ONE_LISTED,
  near: [{ object: showObject({ key: 'm82', name: 'M82', kind: 'galaxy' }), separationDeg: 0.6, directionDeg: 3 }],
  sources: { published: 2, 'from memory': 1, computed: 0, 'our judgement': 2 },
  places: [A_SITE, { ...A_SITE, id: 'site-2', name: 'Hill' }],
  nights: [A_NIGHT],
  look: 'lamp',
  worldEvents: NAMES.worldEvents(),
}
/** A star that is not on the list, and of which little is known. */
export const A_BARE_STAR: ObjectSubject = {
  ...A_THING,
  thing: A_STAR,
  story: undefined,
  star: { otherNames: ['HIP 2'], bv: 1.2, parallaxMas: 0 },
  picture: { thing: A_STAR, stars: [], bv: 1.2 },
  one: ONE_UNLISTED,
  near: [],
  sources: null,
  places: [A_SITE],
  nights: [],
  look: 'day',
}

/** The list, full and empty. */
export const THE_LIST = [
  objectsPage(HOST, {
    query: { ...ANY_THING, text: 'her', kind: 'globular', page: 2 },
    list: { ...A_LIST, isDark: false, page: 2, pages: 3, total: 71 },
    places: [A_SITE],
    pictureOf,
    thisMonth: '2026-11',
  }),
  objectsPage(VISITOR, {
    query: { ...ANY_THING, text: 'zzz' },
    list: { ...A_LIST, total: 0, things: [], telescopes: [], constellations: [], site: PLAIN_SITE },
    places: PLAIN_SITES,
    pictureOf,
    thisMonth: '2026-12',
  }),
] as const

/** One thing with everything, and a star with next to nothing. */
export const ONE_THING = [objectPage(HOST, A_THING), objectPage(VISITOR, A_BARE_STAR)] as const
