import type { Phone } from '../../db/phones.ts'
import type { Conditions } from '../sight/conditions.ts'
import type { Ocular, Optics } from '../sight/optics.ts'
import type { Reason, Sighting } from '../sight/sighting.ts'
import type { BodyKey, BodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import type { Place } from '../sky/place.ts'
import type { BesideHalf } from '../tours/beside-lines.ts'
import type { Check } from '../tours/check.ts'
import type { Hole } from '../tours/hole.ts'
import type { FactorInUse, SiteLearning } from '../tours/learning.ts'
import type { Missing } from '../tours/missing.ts'
import type { ObjectTonight } from '../tours/object-tonight.ts'
import type { ReckonedLine } from '../tours/simulation-reckoned.ts'
import type { LineReport } from '../tours/simulation-report.ts'
import type { Site, SiteDraft, Town } from '../tours/site.ts'
import type { SkyPart } from '../tours/sky-part.ts'
import type { Tour } from '../tours/tour.ts'
import type { AgainDesk } from './again.ts'
import type { AlignmentDesk } from './alignment.ts'
import type { BackupDesk } from './backups.ts'
import type { CarryDesk } from './carry.ts'
import type { ChartDesk } from './charts.ts'
import type { DateDesk } from './dates.ts'
import type { FaultDesk } from './faults.ts'
import type { GoDesk } from './go.ts'
import type { GoodNowDesk } from './good-now.ts'
import type { GroupTextDesk } from './group-text.ts'
import type { JoinDesk } from './joins.ts'
import type { MarkDesk } from './marks.ts'
import type { NightDesk } from './nights.ts'
import type { NoteDesk } from './notes.ts'
import type { ObjectDesk } from './objects.ts'
import type { OwnDesk } from './own-objects.ts'
import type { WordDesk } from './own-words.ts'
import type { ReadingDesk } from './reading.ts'
import type { ReportDesk } from './reports.ts'
import type { StartDesk } from './start.ts'
import type { TelescopeDesk } from './telescopes.ts'
import type { ThingDesk } from './thing-kinds.ts'
import type { WishDesk } from './wishes.ts'

/** Where one key stands at one time and place. Bodies carry their look; catalogue objects leave those values null. */
export interface SkyPlaceAnswer {
  readonly key: string
  readonly altitudeDeg: number
  readonly apparentAltitudeDeg: number
  readonly azimuthDeg: number
  readonly airmass: number | null
  readonly raDeg: number
  readonly decDeg: number
  readonly magnitude: number | null
  readonly look: BodyLook | null
  readonly ringTiltDeg: number | null
}

export interface EveningAnswer extends SkyEvening {
  readonly date: string
  readonly zone: string
  /** The Moon in the middle of the evening (at dusk + 2 h, or at local 20:00 without dusk). */
  readonly moon: BodyLook
  readonly isMoonWaxing: boolean
}

interface SightQuestion {
  readonly objectKey: string
  readonly at: Date
  readonly place: Place
  readonly optics: Optics
  readonly ocular: Ocular
  readonly conditions: Conditions
}

/** What will be seen, and what to be warned of before a telescope is turned there; `caution` is null while the Sun is down. */
export interface SightAnswer extends Sighting {
  readonly caution: Reason | null
}

export interface HealthAnswer {
  readonly version: string
  readonly commit: string
  readonly now: Date
  readonly isRehearsal: boolean
  readonly counts: { readonly stars: number; readonly outreach: number; readonly places: number }
  readonly sqlite: { readonly version: string; readonly journalMode: string; readonly synchronous: number }
}

/** The line of a night's programme: as arithmetic says, and as simulated people make it. */
export interface LineAnswer {
  /** Of the programme. */
  readonly version: number
  readonly seed: number
  readonly reckoned: ReckonedLine
  readonly simulated: LineReport
}

/** How a version of a programme stands to its night now. */
export interface TourState {
  /** True for the one that the row goes by. */
  readonly isCurrent: boolean
  /** True when site, night, row, kit, catalogue or the host's own objects were changed after it was built. */
  readonly isStale: boolean
  /** The newest version, when it was built after the night had begun and the host has not accepted it. */
  readonly waiting: Pick<Tour, 'id' | 'version' | 'madeAt'> | null
}

/** Who a session belongs to. */
export type Who = Omit<Phone, 'tokenHash'>

/** Everything the service can be asked to do: the only floor that reads the database and calls the pure floors. */
export interface Desk {
  readonly health: () => HealthAnswer
  /** A number that grows with whatever is written down. */
  readonly changes: () => number
  readonly sites: {
    all(): readonly Site[]
    find(id: string): Site
    add(draft: SiteDraft): Site
    change(id: string, draft: SiteDraft): Site
  }
  readonly telescopes: TelescopeDesk
  readonly nights: NightDesk
  readonly objects: ObjectDesk
  readonly own: OwnDesk
  readonly words: WordDesk
  readonly things: ThingDesk
  readonly dates: DateDesk
  readonly places: { search(query: string, limit: number): readonly Town[] }
  readonly sky: {
    places(at: Date, place: Place, keys: readonly string[]): readonly SkyPlaceAnswer[]
    evening(date: string, place: Place, zone: string): EveningAnswer
    bodyLook(body: BodyKey, at: Date, place: Place): BodyLook
  }
  readonly sight: { ask(question: SightQuestion): SightAnswer }
  readonly tours: {
    /** Builds a programme in the worker, keeps it as the next version, and answers it. */
    build(nightId: string, options?: { seed?: number; steps?: number }): Promise<Tour>
    /** The programme that the row goes by; undefined before the first. */
    current(nightId: string): Tour | undefined
    /** A version of the night's programme by its number, from 1. */
    version(nightId: string, version: number): Tour
    find(tourId: string): Tour
    versions(nightId: string): readonly Pick<Tour, 'id' | 'version' | 'madeAt' | 'why' | 'value'>[]
    stateOf(tour: Tour): TourState
  }
  readonly start: StartDesk
  readonly again: AgainDesk
  readonly wishes: WishDesk
  readonly checks: {
    /** The check at an instant; needs a programme. */
    at(nightId: string, at: Date): Promise<Check>
    /** All checks of the public hours, for paper. */
    evening(nightId: string): Promise<readonly Check[]>
  }
  /** How long people wait with the programme that the row goes by, and what they get to see; needs a programme. */
  readonly line: (nightId: string) => Promise<LineAnswer>
  /** What every telescope can show at an instant through the open parts of the sky; needs no programme. */
  readonly hole: (nightId: string, open: readonly SkyPart[], at: Date) => Promise<Hole>
  readonly goodNow: GoodNowDesk
  /** Why the showpieces of the night that are missing from a programme are missing; asked again for the same, the same answer. */
  readonly missing: (tour: Tour) => Promise<readonly Missing[]>
  /** What the stations that are no telescope show in every half hour of a night, beside a programme or without one; [] for a row of telescopes. */
  readonly beside: (nightId: string, tour: Tour | undefined) => Promise<readonly BesideHalf[]>
  /** One object of the outreach list on one night, by its canonical key; the sky behind it at an instant, or at its best. */
  readonly tonight: (nightId: string, key: string, at: Date | null) => Promise<ObjectTonight>
  readonly charts: ChartDesk
  readonly groupText: GroupTextDesk
  readonly reading: ReadingDesk
  readonly notes: NoteDesk
  readonly alignment: AlignmentDesk
  readonly faults: FaultDesk
  readonly go: GoDesk
  readonly reports: ReportDesk
  readonly marks: MarkDesk
  readonly carry: CarryDesk
  readonly learning: {
    /** What all standing marks of who saw what tell of the newcomers at a site. */
    ofSite(siteId: string): Promise<SiteLearning>
    /** The factor that new nights at the site start from, or undefined while that is the usual one. */
    inUse(siteId: string): FactorInUse | undefined
    /** Takes the factor of the marks for new nights at the site; `factorRead` is the one the host has read, to the tenth. A Fault rises when marks have moved it since, or when none tells anything. */
    use(siteId: string, factorRead: number): Promise<void>
    /** Goes back to the usual factor. */
    forget(siteId: string): void
  }
  readonly sessions: {
    /** The PIN that this start has set; null when the one of before still holds. */
    readonly newPin: string | null
    /** Opens a host session for the right PIN: the token for the cookie, else a forbidden Fault. Async: scrypt runs off the main thread. */
    signIn(pin: string): Promise<string>
    /** Who a token belongs to, or undefined. */
    who(token: string): Who | undefined
    signOut(token: string): void
  }
  readonly joins: JoinDesk
  readonly backups: BackupDesk
  /** What is free on the disk of the data folder. */
  readonly freeBytes: () => Promise<number>
  close(): Promise<void>
}
