import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import type { Grid, GridCandidate, GridStation } from './grid.ts'
import { type Cell, cellInput, cellOf } from './grid-cells.ts'
import { bestCells, moonBySlot, movingTable, numbersOf, rankedCells, rowOf } from './grid-parts.ts'
import { quarterHours } from './hours.ts'
import { isNamed, limited, limitsOf } from './limits.ts'
import type { Night } from './night.ts'
import { isInClass, schoolClassOf } from './school-class.ts'
import type { ShowObject } from './target.ts'
import type { Setup } from './tour.ts'
import { countOf, type People, peopleAt } from './visitors.ts'
import type { Wish } from './wish.ts'

export interface GridInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
  /** Targets that are kept however little they are worth. */
  readonly keepKeys?: readonly string[]
  /** What the host wished: nothing else is on offer then and there. */
  readonly wishes?: readonly Wish[]
}

const MOST_CANDIDATES = 60
/** So many of the kinds that a station is kept for are kept too, the worthiest there. */
const MOST_OF_A_PURPOSE = 6
const TABLES = ['worth', 'chance', 'quality', 'meanChance', 'meanView', 'capacity'] as const satisfies (keyof Cell)[]

/** The night as quarter hours, from the evening's sky and chances: the sixty candidates that are worth most somewhere, so that the search stays quick. */
export function gridOf(input: GridInput): Grid {
  return wishedGrid(openGridOf(input), input.night, input.wishes ?? [])
}

/** An open grid as wishes leave it; they must be among those with which it was made. */
export const wishedGrid = (open: Grid, night: Night, wishes: readonly Wish[]): Grid =>
  wishes.length === 0 ? open : limited(open, limitsOf(wishes, night, open))

/** The same before the host's wishes take anything off it; what they name is among its candidates. */
export function openGridOf(input: GridInput): Grid {
  const { night, chance } = input
  const borders = quarterHours(night)
  const slots = borders.length - 1
  const quarters = quartersOf(night, borders)
  const stations = rowOf(night, chance.stationIds)
  const columns = chance.candidates.flatMap((_, column) => columnOf(input, stations, column, quarters))
  const kept = keptOf(columns, stations, input)
  const candidates = kept.map(({ candidate }) => candidate)
  const tables = tablesOf(kept, stations.length, slots)
  const byStation = (table: readonly (Setup | null)[]) =>
    stations.flatMap((_, s) => candidates.map(({ column }) => table[s * chance.candidates.length + column] ?? null))
  return {
    borders,
    slots,
    stations,
    candidates,
    ...tables,
    setups: byStation(chance.setups),
    besides: byStation(chance.besides),
    moving: movingTable(input, stations, candidates, borders),
    people: Float64Array.from(quarters, ({ people }) => countOf(people)),
    fade: Float64Array.from(quarters, ({ fromAt }) => fadeAt(fromAt, borders[0], night.settings.stayMin)),
    ...numbersOf(candidates),
    isStill: stillSlots(night, borders),
    ranked: rankedCells(tables.worth, stations.length, candidates.length, slots),
    isMoonUp: moonBySlot(candidates, tables.worth, stations.length, slots),
    isBest: bestCells(candidates, tables.quality, stations.length, borders),
    asked: [],
    kept: new Int16Array(stations.length * slots).fill(-1),
    opening: 0,
  }
}

interface Quarter {
  readonly fromAt: Date
  readonly toAt: Date
  readonly people: People
}

const quartersOf = (night: Night, borders: readonly Date[]): readonly Quarter[] =>
  borders.slice(0, -1).map((fromAt, t) => ({ fromAt, toAt: borders[t + 1] ?? fromAt, people: peopleAt(night, fromAt) }))

/** The quarters that begin while a class goes round: it is in the middle of something when one begins. */
function stillSlots(night: Night, borders: readonly Date[]): readonly boolean[] {
  const schoolClass = schoolClassOf(night)
  return borders.slice(0, -1).map((at) => isInClass(schoolClass, at))
}

/** What a look given at the opening still weighs at an instant: exp(-minutes / length of stay). */
const fadeAt = (at: Date, opensAt: Date | undefined, stayMin: number): number =>
  Math.exp(-(at.getTime() - (opensAt ?? at).getTime()) / 60_000 / stayMin)

interface Column {
  readonly candidate: GridCandidate
  /** By station, then by slot. */
  readonly cells: readonly (readonly (Cell | null)[])[]
  readonly best: number
}

function columnOf(
  input: GridInput,
  stations: readonly GridStation[],
  column: number,
  quarters: readonly Quarter[],
): Column[] {
  const { chance, objects } = input
  const candidate = chance.candidates[column]
  const object = objects.find(({ key }) => key === candidate?.targetKey)
  if (candidate === undefined || object === undefined) return []
  const cells = stations.map((each, station) => {
    const ask = cellInput(input, each, station, column, object)
    return ask === null ? [] : quarters.map(({ fromAt, toAt, people }) => cellOf(ask, fromAt, toAt, people))
  })
  const best = cells.flat().reduce((most, cell) => Math.max(most, cell?.worth ?? 0), 0)
  const { targetKey, aim, targetIndex } = candidate
  const { kind, appeal, atOnce } = object
  return best > 0 ? [{ candidate: { targetKey, aim, kind, appeal, atOnce, targetIndex, column }, cells, best }] : []
}

/** The worthiest candidates, and what is kept anyhow, in the order of the list. */
function keptOf(
  columns: readonly Column[],
  stations: readonly GridStation[],
  { keepKeys = [], wishes = [] }: GridInput,
): readonly Column[] {
  const least = columns.map(({ best }) => best).sort((a, b) => b - a)[MOST_CANDIDATES - 1] ?? 0
  const keys = new Set([...keepKeys, ...wishes.map(({ targetKey }) => targetKey)])
  const purposes = wishes.flatMap((wish) => ofPurpose(columns, stations, wish))
  return columns.filter(
    (column) => column.best >= least || keys.has(column.candidate.targetKey) || purposes.includes(column),
  )
}

/** The worthiest columns of the kinds that a wish keeps a station for. */
function ofPurpose(columns: readonly Column[], stations: readonly GridStation[], wish: Wish): readonly Column[] {
  const s = stations.findIndex(({ id }) => id === wish.stationId)
  if (wish.things.length === 0 || s < 0) return []
  const bestThere = ({ cells }: Column): number =>
    (cells[s] ?? []).reduce((most, cell) => Math.max(most, cell?.worth ?? 0), 0)
  const ofKind = columns.filter((column) => isNamed(wish, column.candidate) && bestThere(column) > 0)
  return ofKind.sort((a, b) => bestThere(b) - bestThere(a)).slice(0, MOST_OF_A_PURPOSE)
}

function tablesOf(kept: readonly Column[], stations: number, slots: number): Pick<Grid, (typeof TABLES)[number]> {
  const size = stations * kept.length * slots
  const tables = {
    worth: new Float64Array(size),
    chance: new Float64Array(size),
    quality: new Float64Array(size),
    meanChance: new Float64Array(size),
    meanView: new Float64Array(size),
    capacity: new Float64Array(size),
  }
  for (const [c, { cells }] of kept.entries()) {
    for (const [s, row] of cells.entries()) {
      for (const [t, cell] of row.entries()) {
        if (cell === null) continue
        for (const name of TABLES) tables[name][(s * kept.length + c) * slots + t] = cell[name]
      }
    }
  }
  return tables
}
