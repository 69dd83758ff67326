import { foldAlias } from '../../db/catalogue/fold.ts'
import type { PlaceStore } from '../../db/places.ts'
import type { Clock } from '../clock.ts'
import { invalid } from '../errors.ts'
import { skyMagOfClass } from '../sight/site-light.ts'
import type { FactorInUse } from '../tours/learning.ts'
import { DEFAULT_SETTINGS, type Night } from '../tours/night.ts'
import { draftOf } from '../tours/night-draft.ts'
import { nightProblems, siteProblems } from '../tours/problems.ts'
import { ASSUMED_SKY_CLASS, type Site, type Town } from '../tours/site.ts'
import { startHours } from '../tours/start-hours.ts'
import { usualVisitors } from '../tours/visitors.ts'
import { newId } from './ids.ts'
import { type KitAsked, kitFrom } from './start-kit.ts'
import type { Stores } from './stores.ts'
import type { FirstTour } from './tours.ts'

/** A town of the gazetteer, or a site of the host's. */
export interface StartPlace extends Town {
  readonly siteId: string | null
}

/** An evening said in three lines; the names are in the host's language. */
export interface StartAsked extends KitAsked {
  readonly place: StartPlace
  readonly date: string
  readonly title: string
}

/** Making a whole evening of a town, a date and telescopes in plain words. */
export interface StartDesk {
  /** The places that may be meant: the host's own sites of that name first, towns called exactly so, else what begins so. */
  places(said: string): readonly StartPlace[]
  /** Towns whose name is one slip of typing away, each name once. */
  near(said: string): readonly string[]
  /** Builds the programme first, and only then keeps site, telescopes, night and programme together, or nothing at all. */
  make(asked: StartAsked): Promise<Night>
}

export interface StartNeeds extends Pick<Stores, 'sites' | 'telescopes' | 'nights' | 'marks'> {
  readonly places: PlaceStore
  readonly clock: Clock
  readonly factorOf: (siteId: string) => FactorInUse | undefined
  readonly firstTour: (night: Night) => Promise<FirstTour>
}

const MOST_PLACES = 8
const MOST_SPELLINGS = 3
/** Two places within so much of each other are one site. */
const SAME_PLACE_DEG = 0.005
export function startDesk(needs: StartNeeds): StartDesk {
  const { sites, telescopes, nights, marks, places, factorOf } = needs

  return {
    places(said) {
      const own = sites.all().filter(({ name }) => foldAlias(name) === foldAlias(said))
      const known = own.map((site): StartPlace => ({ ...site, country: '', region: '', siteId: site.id }))
      const named = places.named(said, MOST_PLACES).filter((town) => !known.some((site) => isSame(site, town)))
      const towns = known.length + named.length > 0 ? named : places.search(said, MOST_PLACES)
      return [...known, ...towns.map((town) => ({ ...town, siteId: null }))]
    },
    near: (said) => [...new Set(places.near(said, MOST_PLACES).map(({ name }) => name))].slice(0, MOST_SPELLINGS),
    async make(asked) {
      const { siteId } = asked.place
      const kept = sites.all().find((site) => (siteId === null ? isSame(site, asked.place) : site.id === siteId))
      const site = kept ?? newSite(asked.place, sites.all())
      const kit = kitFrom(asked, telescopes.all(), nights.all())
      const factor = kept && factorOf(kept.id)?.factor
      const night = nightOf(needs.clock.now(), asked, site, { row: kit.row, factor })
      const first = await needs.firstTour(night)
      marks.together(() => {
        if (!kept) sites.add(site)
        for (const telescope of kit.fresh) telescopes.add(telescope)
        nights.add(night)
        first.keep()
      })
      return night
    },
  }
}

type Spot = Pick<Site, 'latitudeDeg' | 'longitudeDeg'>
const isSame = (one: Spot, other: Spot): boolean =>
  Math.abs(one.latitudeDeg - other.latitudeDeg) < SAME_PLACE_DEG &&
  Math.abs(one.longitudeDeg - other.longitudeDeg) < SAME_PLACE_DEG

/** A town as a site under an open sky; of two towns of one name the second is called by its region, too. */
function newSite(place: StartPlace, sites: readonly Site[]): Site {
  const { name, region, latitudeDeg, longitudeDeg, heightM, zone } = place
  const isTaken = sites.some((site) => site.name === name)
  const skyMag = skyMagOfClass(ASSUMED_SKY_CLASS)
  const where = { latitudeDeg, longitudeDeg, heightM, zone }
  const draft = { ...where, name: isTaken && region ? `${name}, ${region}` : name, skyMag, horizon: [], glow: [] }
  const problems = siteProblems(draft)
  if (problems.length > 0) throw invalid(problems.map((problem) => ({ ...problem, field: 'town' })))
  return { ...draft, id: newId() }
}

interface Known {
  readonly row: Night['stations']
  /** The newcomer factor in use at the site. */
  readonly factor: number | undefined
}

function nightOf(now: Date, asked: StartAsked, site: Site, { row, factor }: Known): Night {
  const { date, opens, closes } = startHours(site, asked.date)
  const hours = { date, opens, closes, site }
  const night: Night = {
    ...hours,
    id: newId(),
    title: asked.title,
    state: 'planned',
    visitors: usualVisitors(hours, row.length),
    stations: row,
    settings: { ...DEFAULT_SETTINGS, noviceFactor: factor ?? DEFAULT_SETTINGS.noviceFactor },
  }
  const problems = nightProblems(draftOf(night), now, site.zone)
  if (problems.length > 0) throw invalid(problems.map((problem) => ({ ...problem, field: 'date' })))
  return night
}
