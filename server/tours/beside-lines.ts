import type { Horizontal } from '../sky/horizontal.ts'
import type { Station } from './night.ts'
import type { Pointing } from './pointing.ts'
import type { Aim } from './target.ts'
import type { LeaveBy, Remark } from './tour.ts'

/** A station that is no telescope: a bare-eye guide, binoculars, a screen, a question table. */
export type BesideKind = Exclude<Station['kind'], 'telescope'>

/** A thing of the sky that is clear and seen from an instant on, where it stands then, and what ends it before we close. */
export interface SightLine extends Horizontal, Pointing {
  readonly what: 'sight'
  readonly targetKey: string
  readonly fromAt: Date
  readonly leave: LeaveBy | null
  /** Chance that a newcomer sees it, and how it shows, 0 to 1; for a shower the chance to see one meteor in ten minutes. */
  readonly chance: number
  readonly view: number
  /** What to say of it, weightiest first. */
  readonly remarks: readonly Remark[]
}

/** Something that passes over at its minute, from one of sixteen compass points to another. */
export interface PassLine {
  readonly what: 'pass'
  readonly targetKey: string
  readonly fromAt: Date
  readonly toAt: Date
  readonly fromPoint: number
  readonly toPoint: number
}

/** A picture for a screen, with the reason why a picture helps. */
export interface PictureLine {
  readonly what: 'picture'
  readonly targetKey: string
  readonly aim: Aim
  readonly remarks: readonly Remark[]
}

/** What another station shows, so that people can be sent on to it. */
export interface ElsewhereLine {
  readonly what: 'elsewhere'
  readonly stationId: string
  readonly targetKey: string
  readonly aim: Aim
  readonly fromAt: Date
  readonly toAt: Date
}

/** A question to be ready for. */
export interface PromptLine {
  readonly what: 'prompt'
  readonly remark: Remark
}

export type BesideLine = SightLine | PassLine | PictureLine | ElsewhereLine | PromptLine

/** What one station beside the telescopes shows in one half hour of the public hours. */
export interface BesideHalf {
  readonly stationId: string
  readonly kind: BesideKind
  readonly fromAt: Date
  readonly toAt: Date
  readonly lines: readonly BesideLine[]
  /** Why there is nothing to show; null when there is something. */
  readonly note: Remark | null
}

/** A half hour of the public hours; the last may be shorter. */
export interface HalfHourSpan {
  readonly fromAt: Date
  readonly toAt: Date
}

/** What two times have in common; it ends before it begins where they have nothing. */
export const commonSpan = (one: HalfHourSpan, other: HalfHourSpan): HalfHourSpan => ({
  fromAt: new Date(Math.max(one.fromAt.getTime(), other.fromAt.getTime())),
  toAt: new Date(Math.min(one.toAt.getTime(), other.toAt.getTime())),
})

/** How long a time is in milliseconds; negative where it ends before it begins. */
export const lengthMs = ({ fromAt, toAt }: HalfHourSpan): number => toAt.getTime() - fromAt.getTime()
