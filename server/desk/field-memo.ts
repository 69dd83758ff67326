import type { FieldState } from '../tours/field.ts'
import { type FieldInput, foldField } from '../tours/fold.ts'
import type { Tour } from '../tours/tour.ts'

interface Folded {
  /** What it was folded from, but for the time. */
  readonly from: string
  readonly state: FieldState
  /** The next moment at which the plan may change it. */
  readonly untilMs: number
}

type Input = FieldInput & { readonly tour: Tour | null }

/** The fold of each night, kept until somebody acts or the plan moves on: hundreds of phones that come back at once all ask for it. */
export function fieldMemo(): (input: Input) => FieldState {
  const folded = new Map<string, Folded>()
  return (input) => {
    const { night, at } = input
    const [from, atMs, known] = [sourceOf(input), at.getTime(), folded.get(night.id)]
    if (known?.from === from && known.state.at.getTime() <= atMs && atMs < known.untilMs) return { ...known.state, at }
    const state = foldField(input)
    folded.set(night.id, { from, state, untilMs: nextTurnMs(input) })
    return state
  }
}

const sourceOf = ({ night, tour, marks }: Input): string =>
  [tour?.id, marks.at(-1)?.seq, ...night.stations.map(({ id }) => id)].join()

/** When a stop next begins or ends, or an act of a clock that was set back next counts. */
function nextTurnMs({ tour, marks, at }: Input): number {
  const turns = [
    ...(tour?.stops ?? []).flatMap(({ startsAt, endsAt }) => [startsAt, endsAt]),
    ...marks.map(({ happenedAt }) => happenedAt),
  ]
  return turns.reduce((next, turn) => (turn > at ? Math.min(next, turn.getTime()) : next), Number.POSITIVE_INFINITY)
}
