import type { Conditions } from '../sight/conditions.ts'
import type { Ocular, Optics } from '../sight/optics.ts'
import type { Sighting } from '../sight/sighting.ts'
import type { BodyKey, BodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import type { Place } from '../sky/place.ts'
import type { AlignmentPair } from '../tours/alignment.ts'
import type { Check } from '../tours/check.ts'
import type { FieldState } from '../tours/field.ts'
import type { Mark, MarkDraft } from '../tours/mark.ts'
import type { Night, NightDraft } from '../tours/night.ts'
import type { Site, SiteDraft, Town } from '../tours/site.ts'
import type { ObjectHit, ShowObject, Story } from '../tours/target.ts'
import type { Telescope, TelescopeDraft } from '../tours/telescope.ts'
import type { Tour } from '../tours/tour.ts'

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

export interface SightQuestion {
  readonly objectKey: string
  readonly at: Date
  readonly place: Place
  readonly optics: Optics
  readonly ocular: Ocular
  readonly conditions: Conditions
}

export interface HealthAnswer {
  readonly version: string
  readonly commit: string
  readonly now: Date
  readonly isRehearsal: boolean
  readonly counts: { readonly stars: number; readonly outreach: number; readonly places: number }
  readonly sqlite: { readonly version: string; readonly journalMode: string; readonly synchronous: number }
}

/** Everything the service can be asked to do: the only floor that reads the database and calls the pure floors. */
export interface Desk {
  readonly health: () => HealthAnswer
  readonly sites: {
    all(): readonly Site[]
    find(id: string): Site
    add(draft: SiteDraft): Site
    change(id: string, draft: SiteDraft): Site
  }
  readonly telescopes: {
    all(): readonly Telescope[]
    find(id: string): Telescope
    add(draft: TelescopeDraft): Telescope
  }
  readonly nights: {
    all(): readonly Night[]
    find(id: string): Night
    /** The night to open on the board: the one under way by the evening's clock, else the next, else the last. */
    current(): Night | undefined
    add(draft: NightDraft): Night
    change(id: string, draft: NightDraft): Night
  }
  readonly objects: {
    search(query: string, limit: number): readonly ObjectHit[]
    /** The canonical object for a key or any alias; not-found otherwise. `canonicalKey` differs for an alias. */
    find(key: string): { readonly canonicalKey: string; readonly object: ShowObject | ObjectHit }
    /** The outreach object, or undefined when the key is not on the list. */
    show(key: string): ShowObject | undefined
    story(key: string, language: string): Story | undefined
  }
  readonly places: { search(query: string, limit: number): readonly Town[] }
  readonly sky: {
    places(at: Date, place: Place, keys: readonly string[]): readonly SkyPlaceAnswer[]
    evening(date: string, place: Place, zone: string): EveningAnswer
    bodyLook(body: BodyKey, at: Date, place: Place): BodyLook
  }
  readonly sight: { ask(question: SightQuestion): Sighting }
  readonly tours: {
    /** Builds a programme in the worker, keeps it as the next version, and answers it. */
    build(nightId: string, options?: { seed?: number; steps?: number }): Promise<Tour>
    latest(nightId: string): Tour | undefined
    find(tourId: string): Tour
    versions(nightId: string): readonly Pick<Tour, 'id' | 'version' | 'madeAt' | 'why' | 'value'>[]
  }
  readonly checks: {
    /** The check at an instant; needs a programme. */
    at(nightId: string, at: Date): Promise<Check>
    /** All checks of the public hours, for paper. */
    evening(nightId: string): Promise<readonly Check[]>
  }
  /** At most three pairs of stars to set the driven mounts up on at an instant, best first; none by day. */
  readonly alignment: (nightId: string, at: Date) => readonly AlignmentPair[]
  readonly marks: {
    /** Keeps each mark once (a repeated key answers the kept one) and answers only when all are on the disk. */
    record(nightId: string, drafts: readonly MarkDraft[], by: string): readonly Mark[]
    since(nightId: string, seq: number): readonly Mark[]
    field(nightId: string): FieldState
    /** `<epoch>.<seq>` of the newest mark. */
    version(nightId: string): string
  }
  readonly sessions: {
    /** Opens a host session for the right PIN: the token for the cookie, else a forbidden Fault. Async: scrypt runs off the main thread. */
    signIn(pin: string): Promise<string>
    /** Who a token belongs to, or undefined. */
    who(token: string): { readonly role: 'host'; readonly name: string } | undefined
    signOut(token: string): void
  }
  close(): Promise<void>
}
