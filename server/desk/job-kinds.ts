import type { Place } from '../sky/place.ts'
import type { AlignmentPair } from '../tours/alignment.ts'
import type { BrightStar } from '../tours/alignment-lights.ts'
import type { AlignmentOutlook } from '../tours/alignment-outlook.ts'
import type { BesideHalf } from '../tours/beside-lines.ts'
import type { Check } from '../tours/check.ts'
import type { Again } from '../tours/course.ts'
import type { DateFacts, DatesAsk } from '../tours/date-facts.ts'
import type { GoodNow, GoodNowAsk } from '../tours/good-now.ts'
import type { Hole } from '../tours/hole.ts'
import type { MarkedNight, SiteLearning } from '../tours/learning.ts'
import type { Mark } from '../tours/mark.ts'
import type { Missing } from '../tours/missing.ts'
import type { MonthAsk } from '../tours/month-night.ts'
import type { Night } from '../tours/night.ts'
import type { ObjectTonight } from '../tours/object-tonight.ts'
import type { PassingThing } from '../tours/own-pass.ts'
import type { NightFacts, ReportInput } from '../tours/report.ts'
import type { LineReport } from '../tours/simulation-report.ts'
import type { SkyPart } from '../tours/sky-part.ts'
import type { ShowObject } from '../tours/target.ts'
import type { ThinCloud } from '../tours/thin-cloud.ts'
import type { Stop, Tour } from '../tours/tour.ts'
import type { Walk } from '../tours/walks.ts'
import type { Wish } from '../tours/wish.ts'
import type { WishConflict } from '../tours/wish-conflicts.ts'
import type { WishCost } from '../tours/wish-cost.ts'
import type { FaultAsk, FaultFinding } from './fault-slices.ts'
import type { Seasonal } from './thing-kinds.ts'

/** What the worker is given once, when it starts. */
export interface WorkerStart {
  readonly objects: readonly ShowObject[]
  readonly catalogueDigest: string
  /** Every star that mounts may be set up on, and every one that might be taken for it. */
  readonly stars: readonly BrightStar[]
}

export type BuiltTour = Pick<Tour, 'stops' | 'spares' | 'value' | 'bound' | 'notices' | 'seconds'>

/** What the host entered: it may change between two jobs, so each brings it along. */
type Own = readonly ShowObject[]

/** What a programme is made from; `again` where the night is under way. */
interface TourAsked {
  night: Night
  own: Own
  wishes: readonly Wish[]
  seed: number
  steps: number
  again: Again | null
}

/** Everything that the worker can be asked, by kind: what goes in and what comes out. All of it is plain data. */
export interface JobKinds {
  readonly tour: {
    readonly asked: TourAsked
    readonly answer: BuiltTour
  }
  /** Proves an upper limit for the programme that the same search gives; null where there is nothing to prove. */
  readonly proof: {
    readonly asked: TourAsked & { rounds: number }
    readonly answer: number | null
  }
  /** Which wishes cannot be met, and why. */
  readonly 'wish-conflicts': {
    readonly asked: { night: Night; own: Own; wishes: readonly Wish[] }
    readonly answer: readonly WishConflict[]
  }
  /** What each wish costs: a search for each. */
  readonly 'wish-costs': {
    readonly asked: { night: Night; own: Own; wishes: readonly Wish[]; seed: number; steps: number }
    readonly answer: readonly WishCost[]
  }
  readonly checks: {
    readonly asked: { night: Night; own: Own; tour: Tour; marks: readonly Mark[]; moments: readonly Moment[] }
    readonly answer: Check[]
  }
  readonly alignment: {
    readonly asked: { night: Night; own: Own; stops: readonly Stop[]; at: Date }
    readonly answer: readonly AlignmentPair[]
  }
  readonly 'alignment-outlook': {
    readonly asked: { night: Night; at: Date; untilAt: Date }
    readonly answer: AlignmentOutlook
  }
  /** What can be aimed at, and why something was missed. */
  readonly faults: {
    readonly asked: {
      night: Night
      own: Own
      targetKeys: readonly string[]
      at: Date
      ask: FaultAsk | null
      declinationDeg: number
      otherPlaces: readonly Place[]
    }
    readonly answer: FaultFinding
  }
  readonly tonight: {
    readonly asked: { night: Night; own: Own; tour: Tour | null; object: ShowObject; at: Date | null }
    readonly answer: ObjectTonight
  }
  readonly walks: {
    readonly asked: { night: Night; own: Own; keys: readonly string[] }
    readonly answer: readonly Walk[]
  }
  readonly hole: {
    readonly asked: { night: Night; own: Own; open: readonly SkyPart[]; at: Date }
    readonly answer: Hole
  }
  /** What the row would show through thin cloud. */
  readonly 'thin-cloud': {
    readonly asked: { night: Night; own: Own; wishes: readonly Wish[]; seed: number; steps: number }
    readonly answer: ThinCloud
  }
  /** What one telescope could show now in place of what it shows. */
  readonly 'good-now': {
    readonly asked: { night: Night; own: Own } & GoodNowAsk
    readonly answer: GoodNow
  }
  readonly missing: {
    readonly asked: { night: Night; own: Own; tour: Tour; wishes: readonly Wish[] }
    readonly answer: readonly Missing[]
  }
  /** What the stations that are no telescope show; `extra` is what the worker was not given at its start. */
  readonly beside: {
    readonly asked: {
      night: Night
      own: Own
      extra: readonly ShowObject[]
      passes: readonly PassingThing[]
      stops: readonly Stop[]
    }
    readonly answer: readonly BesideHalf[]
  }
  /** How the lines of a programme go. */
  readonly simulation: {
    readonly asked: { night: Night; own: Own; stops: readonly Stop[]; seed: number }
    readonly answer: LineReport
  }
  /** What a night's programmes and marks tell of it. */
  readonly report: { readonly asked: ReportInput; readonly answer: NightFacts }
  readonly learning: {
    readonly asked: { nights: readonly (MarkedNight & { readonly own: Own })[] }
    readonly answer: SiteLearning
  }
  readonly season: {
    /** `extra` is what the worker was not given at its start; `only` asks for one thing alone. */
    readonly asked: { ask: MonthAsk; extra: readonly ShowObject[]; only: ShowObject | null }
    readonly answer: { readonly things: readonly Seasonal[]; readonly isDark: boolean }
  }
  /** What the sky does on every date of a month. */
  readonly dates: {
    readonly asked: { ask: DatesAsk; own: Own }
    readonly answer: readonly DateFacts[]
  }
}
export type JobKind = keyof JobKinds
export type Job = { [Kind in JobKind]: { readonly kind: Kind } & JobKinds[Kind]['asked'] }[JobKind]
export type AnswerOf<Kind extends JobKind> = JobKinds[Kind]['answer']

/** The instant of a check and of the one before it. */
export interface Moment {
  readonly at: Date
  readonly previousAt: Date | null
}

/** Which job goes first: the host waits for a programme, a hole in the clouds and who wants another thing now for nobody, a page for a check or for stars; browsing can wait, and nobody waits for a proof. */
export const PRIORITIES: Readonly<Record<JobKind, number>> = {
  'wish-conflicts': 0,
  tour: 0,
  hole: -1,
  'good-now': -1,
  checks: 1,
  alignment: 1,
  'alignment-outlook': 1,
  faults: 1,
  tonight: 1,
  walks: 1,
  beside: 1,
  'thin-cloud': 1,
  report: 1,
  missing: 2,
  simulation: 2,
  season: 2,
  dates: 2,
  learning: 2,
  'wish-costs': 2,
  proof: 3,
}

/** A message to the worker, and its answer: a value, or what was thrown. */
export interface Asked {
  readonly id: number
  readonly job: Job
}
export type Answered = { readonly id: number } & ({ readonly value: unknown } | { readonly error: Error })
