import { type Static, Type } from 'typebox'
import type { Site } from './site.ts'
import type { Telescope } from './telescope.ts'

/** `HH:mm`, 24 hours, by the clocks of the site's zone. */
export const WallClock = Type.String({ pattern: '^([01]\\d|2[0-3]):[0-5]\\d$' })
/** A calendar date `YYYY-MM-DD` of this century at the site. */
export const CalendarDate = Type.String({ pattern: '^20\\d\\d-(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])$' })

/** People on the field in the half hour that starts then. */
export const HalfHour = Type.Object({
  startsAt: WallClock,
  adults: Type.Integer({ minimum: 0, maximum: 5000 }),
  children: Type.Integer({ minimum: 0, maximum: 5000 }),
  seated: Type.Integer({ minimum: 0, maximum: 500 }),
})
export type HalfHour = Static<typeof HalfHour>

/** A place of the row: most are a telescope, others a bare-eye guide, binoculars, a screen, a question table. */
export const StationDraft = Type.Object({
  name: Type.String({ minLength: 1, maxLength: 40 }),
  kind: Type.Union([
    Type.Literal('telescope'),
    Type.Literal('bare-eye'),
    Type.Literal('binoculars'),
    Type.Literal('screen'),
    Type.Literal('questions'),
  ]),
  telescopeId: Type.Union([Type.String({ maxLength: 40 }), Type.Null()]),
  operator: Type.String({ maxLength: 60 }),
  isForChildren: Type.Boolean(),
})

/** The settings of one night that change what can be seen and how the line moves. */
export const NightSettings = Type.Object({
  extinctionMag: Type.Number({ minimum: 0.1, maximum: 1 }),
  seeingArcsec: Type.Number({ minimum: 0.5, maximum: 8 }),
  thinCloud: Type.Number({ minimum: 0, maximum: 1 }),
  noviceFactor: Type.Number({ minimum: 1, maximum: 8 }),
  moonGazerShare: Type.Number({ minimum: 0, maximum: 1 }),
  cycleSec: Type.Number({ minimum: 36, maximum: 180 }),
  stayMin: Type.Number({ minimum: 15, maximum: 240 }),
  /** True when a lamp shines on the people at the telescopes; without it none does. */
  streetLight: Type.Optional(Type.Boolean()),
  /** A class that has the row to itself for a time, in so many groups that change stations at one bell; without it none does. */
  schoolClass: Type.Optional(
    Type.Union([
      Type.Object({ startsAt: WallClock, endsAt: WallClock, groups: Type.Integer({ minimum: 1, maximum: 12 }) }),
      Type.Null(),
    ]),
  ),
  /** The usual age of the visitors; without it, or null, a mixed public. */
  visitorYears: Type.Optional(Type.Union([Type.Number({ minimum: 5, maximum: 90 }), Type.Null()])),
})
export type NightSettings = Static<typeof NightSettings>

/** Common practice, no source, but for extinction and newcomer factor (server/sight says where those come from). */
export const DEFAULT_SETTINGS: Omit<NightSettings, 'streetLight' | 'visitorYears' | 'schoolClass'> = {
  extinctionMag: 0.28,
  seeingArcsec: 2.5,
  thinCloud: 0,
  noviceFactor: 4,
  moonGazerShare: 0.25,
  cycleSec: 50,
  stayMin: 75,
}

export const NightDraft = Type.Object({
  title: Type.String({ minLength: 1, maxLength: 80 }),
  siteId: Type.String({ minLength: 1, maxLength: 40 }),
  date: CalendarDate,
  opens: WallClock,
  closes: WallClock,
  visitors: Type.Array(HalfHour, { maxItems: 24 }),
  stations: Type.Array(StationDraft, { minItems: 1, maxItems: 12 }),
  settings: NightSettings,
})
export type NightDraft = Static<typeof NightDraft>

export type NightState = 'planned' | 'on' | 'doubtful' | 'off' | 'closed'

export interface Station extends Readonly<Omit<Static<typeof StationDraft>, 'telescopeId'>> {
  readonly id: string
  readonly telescope: Telescope | null
}

export interface Night extends Readonly<Omit<NightDraft, 'stations' | 'siteId'>> {
  readonly id: string
  readonly state: NightState
  readonly site: Site
  /** The row, in the order in which it stands. */
  readonly stations: readonly Station[]
}
