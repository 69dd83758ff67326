import type { MessageValues } from '../errors.ts'
import type { Aim } from './target.ts'

/** A code with values: the page makes the sentence. */
export interface Remark {
  readonly code: string
  readonly values?: MessageValues
}

/** Why something stops (or starts) being well placed. `name` says what stands there when the code is `skyline`. */
export interface Cause {
  readonly code: 'skyline' | 'low' | 'high' | 'faint' | 'sun' | 'closing' | 'set'
  readonly name?: string
}

export interface LeaveBy {
  readonly at: Date
  readonly cause: Cause
}

/** One tube with the eyepiece to put in. */
export interface Setup {
  readonly tubeId: string
  readonly eyepieceId: string
  readonly powerX: number
  readonly trueFieldDeg: number
}

/** One target at one station from-to. */
export interface Stop {
  readonly stationId: string
  readonly targetKey: string
  readonly aim: Aim
  readonly setups: readonly Setup[]
  readonly startsAt: Date
  readonly endsAt: Date
  readonly leaveBy: LeaveBy | null
  /** Mean chance and view over the stop, 0 to 1. */
  readonly chance: number
  readonly view: number
  readonly looks: number
  /** Why here and why now, heaviest first. */
  readonly reasons: readonly Remark[]
}

/** The instant half way through a stop. */
export const middleOf = ({ startsAt, endsAt }: Pick<Stop, 'startsAt' | 'endsAt'>): Date =>
  new Date((startsAt.getTime() + endsAt.getTime()) / 2)

/** A good target on nobody's list. */
export interface Spare {
  readonly targetKey: string
  readonly stationId: string
  readonly setups: readonly Setup[]
  readonly fromAt: Date
  readonly untilAt: Date
  readonly cause: Cause
  readonly chance: number
}

/** All stops of a night: immutable, one version each time it is rebuilt. */
export interface Tour {
  readonly id: string
  readonly nightId: string
  readonly version: number
  readonly madeAt: Date
  readonly why: 'first' | 'asked' | 'changed'
  readonly seed: number
  readonly steps: number
  /** Digest of everything that went in: same digest, seed and steps give the same stops. */
  readonly inputsDigest: string
  /** The night's newest mark when it took over at once, since nothing had been shown yet; null when it waits for the host. */
  readonly tookOverAtSeq: number | null
  readonly value: number
  readonly bound: number | null
  readonly seconds: number
  readonly stops: readonly Stop[]
  readonly spares: readonly Spare[]
  /** Rules that had to give way, each with its sentence. */
  readonly notices: readonly Remark[]
}
