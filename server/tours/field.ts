import type { Aim } from './target.ts'

/** What a station is doing now, folded from plan and marks. */
export interface StationNow {
  readonly stationId: string
  readonly showing: {
    readonly targetKey: string
    readonly aim: Aim
    readonly sinceAt: Date
    readonly isPlanned: boolean
  } | null
  readonly untilAt: Date | null
  readonly next: { readonly targetKey: string; readonly aim: Aim; readonly atAt: Date } | null
  /** What has been shown here, oldest first. */
  readonly shown: readonly { readonly targetKey: string; readonly fromAt: Date; readonly toAt: Date | null }[]
  readonly skipped: readonly { readonly targetKey: string; readonly why: string }[]
  readonly trouble: string | null
  /** Key of the newest mark here that can still be undone. */
  readonly lastMarkKey: string | null
}

/** The state of the night: a pure fold over the programme and the marks. */
export interface FieldState {
  readonly seq: number
  readonly at: Date
  readonly stations: readonly StationNow[]
  readonly adultsIn: number
  readonly childrenIn: number
}
