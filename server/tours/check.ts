import type { Pointing } from './pointing.ts'
import type { Aim } from './target.ts'
import type { Cause, Remark } from './tour.ts'

export type CheckGroup = 'good' | 'going' | 'gone' | 'coming'

/** Why a target is not well placed: by its place, or because clouds hide it or its station has left the row. */
export type CheckCause = Cause | { readonly code: 'cloud' | 'out'; readonly name?: string }

/** One target of the programme, or a spare, as it stands at the moment of the check, at one station. */
export interface CheckLine extends Pointing {
  readonly targetKey: string
  readonly aim: Aim
  readonly stationId: string
  readonly isSpare: boolean
  readonly group: CheckGroup
  /** When it stops being well placed, or null when it stays to the end; set for `good` and `going`. */
  readonly untilAt: Date | null
  /** When it becomes well placed; set for `coming`. */
  readonly fromAt: Date | null
  readonly cause: CheckCause | null
  readonly minutesLeft: number | null
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly eyepieceHeightCm: number | null
}

/** The half-hour check: what is still well placed, and what changed since the one before. */
export interface Check {
  /** The instant it holds for; the nearest one that is reckoned when a farther one was asked for. */
  readonly at: Date
  readonly lines: readonly CheckLine[]
  /** `check.turned-going` and the like, each naming target and station. */
  readonly changes: readonly Remark[]
}
