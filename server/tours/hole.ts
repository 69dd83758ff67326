import type { CheckLine } from './check.ts'
import { type LineInput, lineOf } from './check-line.ts'
import { seenAtStep } from './evening-chance.ts'
import { LEAST_CHANCE } from './grid-cells.ts'
import { firstOnes } from './hole-first.ts'
import type { Station } from './night.ts'
import { placeCause, sunCause } from './offered.ts'
import { ANYONE } from './rules.ts'
import { stepAt, sunAtStep, targetAtStep } from './sky-at.ts'
import { type SkyPart, skyPartOf } from './sky-part.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Remark, Setup } from './tour.ts'

/** A thing that stands in an open part of the sky, with what a newcomer sees of it at that telescope. */
export interface HoleLine extends CheckLine {
  readonly part: SkyPart
  readonly setups: readonly Setup[]
  readonly chance: number
  readonly view: number
  /** True when nineteen newcomers of twenty see it. */
  readonly isEasy: boolean
}

export interface HoleStation {
  readonly stationId: string
  /** At most three, the first one to turn to first. */
  readonly lines: readonly HoleLine[]
}

/** What the row can show through a hole in the clouds, and what to say when it closes. */
export interface Hole {
  readonly at: Date
  readonly open: readonly SkyPart[]
  /** Every telescope of the row, in its order. */
  readonly stations: readonly HoleStation[]
  /** Why nothing is listed; null when something is. */
  readonly note: Remark | null
  /** What to do when it closes, or while all is shut. */
  readonly meanwhile: readonly Remark[]
}

interface HoleInput extends LineInput {
  readonly objects: readonly ShowObject[]
  readonly open: readonly SkyPart[]
  readonly at: Date
}

const LINES = 3
/** Finding and centring take 3 to 5 minutes, and one look must follow. */
const LEAST_MIN = 5
/**
 * The best that every telescope can show at once in the open parts of the sky: what anyone sees first, then by chance,
 * view and appeal; only what is well placed for five minutes more. Throws for an instant that is not reckoned.
 */
export function cloudHole(input: HoleInput): Hole {
  const { night, open, at } = input
  const sun = sunCause(sunAtStep(input.sky, stepAt(input.sky, at)))
  const found = night.stations.flatMap((station) => {
    const { telescope } = station
    return telescope === null ? [] : [{ stationId: station.id, lines: linesOf(input, station, telescope) }]
  })
  const stations = firstOnes(found, input.objects).map(({ stationId, lines }) => ({
    stationId,
    lines: lines.slice(0, LINES),
  }))
  const note = noteOf(open, sun !== null, stations)
  return { at, open, stations, note, meanwhile: meanwhileOf(input, stations) }
}

function noteOf(open: readonly SkyPart[], isSunUp: boolean, stations: readonly HoleStation[]): Remark | null {
  if (stations.length === 0) return { code: 'hole.no-telescope' }
  if (isSunUp) return { code: 'hole.sun' }
  if (open.length === 0) return { code: 'hole.shut' }
  return stations.some(({ lines }) => lines.length > 0) ? null : { code: 'hole.nothing-there' }
}

interface Found {
  readonly column: number
  readonly part: SkyPart
  readonly chance: number
  readonly view: number
  readonly merit: number
}

/** What stands in the open for one telescope, the best first; of a whole Moon and a close one the better. */
function linesOf(input: HoleInput, station: Station, telescope: Telescope): readonly HoleLine[] {
  const row = input.chance.stationIds.indexOf(station.id)
  const best = row < 0 ? [] : foundFor(input, row, telescope).sort(easyFirst)
  const lines: HoleLine[] = []
  for (const found of best) {
    if (lines.length >= LINES + input.night.stations.length) break
    const line = holeLine(input, { station, telescope, row }, found)
    const isTwice = lines.some(({ targetKey }) => targetKey === line.targetKey)
    if (!isTwice && isLongEnough(line)) lines.push(line)
  }
  return lines
}

const isLongEnough = ({ group, minutesLeft }: CheckLine): boolean =>
  (group === 'good' || group === 'going') && (minutesLeft === null || minutesLeft >= LEAST_MIN)

const easyFirst = (a: Found, b: Found): number =>
  Number(b.chance >= ANYONE) - Number(a.chance >= ANYONE) || b.merit - a.merit

function foundFor({ sky, night, chance, objects, open, at }: HoleInput, row: number, telescope: Telescope): Found[] {
  const step = stepAt(sky, at)
  if (sunCause(sunAtStep(sky, step)) !== null) return []
  const appeals = new Map(objects.map(({ key, appeal }) => [key, appeal]))
  return chance.candidates.flatMap(({ targetKey, targetIndex }, column) => {
    const seen = seenAtStep(chance, row, column, Math.round(step))
    if (seen.chance < LEAST_CHANCE) return []
    const place = targetAtStep(sky, targetIndex, step)
    const part = skyPartOf(place)
    if (!open.includes(part) || placeCause(place, night.site, telescope) !== null) return []
    return [{ column, part, ...seen, merit: seen.chance * seen.view * (appeals.get(targetKey) ?? 0) }]
  })
}

interface Where {
  readonly station: Station
  readonly telescope: Telescope
  readonly row: number
}

function holeLine(input: HoleInput, { station, telescope, row }: Where, found: Found): HoleLine {
  const { chance, at } = input
  const candidate = chance.candidates[found.column]
  if (candidate === undefined) throw new Error('A candidate off the table of chances')
  const cell = row * chance.candidates.length + found.column
  const setups = [chance.setups[cell], chance.besides[cell]].flatMap((setup) => setup ?? [])
  const asked = { ...candidate, station, telescope, setups, isSpare: false }
  const { part, chance: share, view } = found
  return { ...lineOf(input, asked, at), part, setups, chance: share, view, isEasy: share >= ANYONE }
}

/** Two or three plain sentences for the people who wait, about what they were last shown where there is such a thing. */
function meanwhileOf({ objects }: HoleInput, stations: readonly HoleStation[]): readonly Remark[] {
  const shown = stations.flatMap(({ lines }) => lines.slice(0, 1)).sort((a, b) => b.chance * b.view - a.chance * a.view)
  const name = objects.find(({ key }) => key === shown[0]?.targetKey)?.name
  const talk: Remark = name === undefined ? { code: 'hole.talk' } : { code: 'hole.talk-about', values: { name } }
  return [talk, { code: 'hole.hands' }, { code: 'hole.warm' }]
}
