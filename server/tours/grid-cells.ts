import type { EveningSky } from './evening.ts'
import { type Candidate, type EveningChance, seenAtStep } from './evening-chance.ts'
import type { GridStation } from './grid.ts'
import { cycleAt, looksPerHour } from './line.ts'
import type { Night } from './night.ts'
import { type Gate, whyNotWithin } from './offered.ts'
import { stepAt, targetAtStep } from './sky-at.ts'
import type { ShowObject } from './target.ts'
import type { Telescope, Tube } from './telescope.ts'
import { childShareOf, type People } from './visitors.ts'
import { worthOf } from './worth.ts'

/** A newcomer's chance under which a thing is never put on a programme. */
export const LEAST_CHANCE = 0.5

interface CellInput {
  readonly gate: Gate
  readonly table: EveningChance
  readonly station: number
  readonly column: number
  readonly candidate: Candidate
  readonly object: ShowObject
  readonly telescope: Telescope
  readonly tubes: readonly Tube[]
  readonly powerX: number
  readonly cycleSec: number
  /** Rows of the stations with a smaller aperture, how large this one is beside the smallest, and whether it is by hand beside driven ones. */
  readonly smaller: readonly number[]
  readonly bigness: number
  readonly isDriftBeside: boolean
}

export interface Cell {
  readonly worth: number
  readonly chance: number
  readonly quality: number
  readonly meanChance: number
  readonly meanView: number
  readonly capacity: number
}

interface Evening {
  readonly night: Night
  readonly sky: EveningSky
  readonly chance: EveningChance
}

/** What to ask about one candidate at one telescope of the row, by its numbers in the table of chances; null where it is never up in the public hours. */
export function cellInput(
  { night, sky, chance }: Evening,
  { telescope, smaller, bigness, isDriftBeside }: GridStation,
  station: number,
  column: number,
  object: ShowObject,
): CellInput | null {
  const at = station * chance.candidates.length + column
  const candidate = chance.candidates[column]
  const [setup, beside] = [chance.setups[at], chance.besides[at]]
  const tubes = telescope.tubes.filter(({ id }) => id === setup?.tubeId || id === beside?.tubeId)
  if (candidate === undefined || !setup || tubes.length === 0) return null
  const gate = { sky, site: night.site, mount: telescope }
  const what = { table: chance, column, candidate, object, powerX: setup.powerX, cycleSec: night.settings.cycleSec }
  return { ...what, gate, station, telescope, tubes, smaller, bigness, isDriftBeside }
}

/**
 * One candidate at one station from one instant to another: null unless it is well placed for the whole of it, both
 * ends included, and a newcomer sees it more often than not at every fifth minute.
 */
export function cellOf(input: CellInput, fromAt: Date, toAt: Date, people: People): Cell | null {
  const { gate, candidate, table, object, telescope } = input
  const [from, to] = [stepAt(gate.sky, fromAt), stepAt(gate.sky, toAt)]
  if (whyNotWithin(gate, candidate.targetIndex, from, to) !== null) return null
  const count = Math.max(1, Math.round(to - from))
  let [worth, chance, quality, meanChance, meanView] = [0, 1, 0, 0, 0]
  for (let k = 0; k <= count; k++) {
    const step = from + ((to - from) * k) / count
    const seen = seenAtStep(table, input.station, input.column, Math.round(step))
    if (seen.chance < LEAST_CHANCE) return null
    const { altitudeDeg } = targetAtStep(gate.sky, candidate.targetIndex, step)
    worth += worthOf({
      ...input,
      ...seen,
      altitudeDeg,
      people,
      isClose: candidate.aim === 'close',
      smallerView: smallerViewOf(input, step),
    }).value
    chance = Math.min(chance, seen.chance)
    quality += seen.chance * seen.view * object.appeal
    meanChance += seen.chance
    meanView += seen.view
  }
  const cycle = cycleAt(input.cycleSec, childShareOf(people), telescope.mount, input.powerX)
  const hours = (toAt.getTime() - fromAt.getTime()) / 3_600_000
  const mean = (sum: number) => sum / (count + 1)
  return {
    worth: mean(worth),
    chance,
    quality: mean(quality),
    meanChance: mean(meanChance),
    meanView: mean(meanView),
    capacity: looksPerHour(cycle) * hours,
  }
}

/** Mean over the smaller telescopes of the better of their views, whole or close, of the same target. */
function smallerViewOf({ table, smaller, column, candidate }: CellInput, step: number): number | null {
  if (smaller.length === 0) return null
  const columns = [column - 1, column, column + 1].filter(
    (c) => table.candidates[c]?.targetIndex === candidate.targetIndex,
  )
  const viewOf = (row: number) => Math.max(...columns.map((c) => seenAtStep(table, row, c, Math.round(step)).view))
  return smaller.reduce((sum, row) => sum + viewOf(row), 0) / smaller.length
}
