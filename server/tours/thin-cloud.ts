import { finishTour, type TourInput, type TourWork, workOn } from './build.ts'
import { daylightOf } from './daylight.ts'
import { cellAt, type Grid } from './grid.ts'
import { openGridOf, wishedGrid } from './grid-make.ts'
import { remarkClock } from './hours.ts'
import { limited } from './limits.ts'
import type { Night } from './night.ts'
import type { ShowObject } from './target.ts'
import type { Remark, Stop } from './tour.ts'

/** How thick the cloud is reckoned, on the scale of a night's settings, unless the night's own is thicker (our choice). */
const THIN_CLOUD = 0.5
/** A pair that shines through thin cloud as easily as people need it (our choice): brighter than that together. */
const BRIGHT_PAIR_MAG = 3.5

/** What the row would show under thin cloud, by the same rules as any programme; beside the programme that holds. */
export interface ThinCloud {
  readonly stops: readonly Stop[]
  readonly notices: readonly Remark[]
  /** What must be known of it first: that nothing is up, or when neither Moon nor planet is. */
  readonly notes: readonly Remark[]
}

/** The night under that cloud. */
export const underThinCloud = (night: Night): Night => ({
  ...night,
  settings: { ...night.settings, thinCloud: Math.max(night.settings.thinCloud, THIN_CLOUD) },
})

/** Planets that bare eyes hardly see, or not at all, are no sight through cloud. */
const FAINT_PLANETS: readonly (string | null)[] = ['uranus', 'neptune', 'pluto']

const isBright = ({ kind, body }: ShowObject): boolean =>
  kind === 'moon' || (kind === 'planet' && !FAINT_PLANETS.includes(body))

const isBrightPair = ({ kind, magnitude }: ShowObject): boolean =>
  kind === 'double' && magnitude !== null && magnitude <= BRIGHT_PAIR_MAG

/** A search that has not begun, of a night that is under thin cloud already. Of the wishes only bars hold: a thing that was asked for may be just what the cloud hides. */
export function beginThinCloud(input: TourInput): TourWork {
  const { night, objects, wishes = [] } = input
  const bars = wishes.filter(({ kind }) => kind === 'bar')
  const keepKeys = objects.filter((object) => isBright(object) || isBrightPair(object)).map(({ key }) => key)
  const open = openGridOf({ ...input, wishes: bars, keepKeys })
  const thin = thinGrid(wishedGrid(open, night, bars), objects)
  return workOn({ ...input, wishes: bars, again: null }, thin)
}

export function finishThinCloud(work: TourWork): ThinCloud {
  const { stops, notices } = finishTour(work)
  return { stops, notices: stops.length === 0 ? [] : notices, notes: notesOf(work, stops) }
}

/** The Moon and bright planets alone; bright pairs in the quarters in which no telescope can show any of them. */
function thinGrid(grid: Grid, objects: readonly ShowObject[]): Grid {
  const pairs = keysOf(objects, isBrightPair)
  const isUp = brightSlots(grid, objects)
  const bright = keysOf(objects, isBright)
  const isOff = new Uint8Array(grid.worth.length)
  for (const [c, candidate] of grid.candidates.entries()) {
    if (bright.has(candidate.targetKey)) continue
    for (const s of grid.stations.keys()) {
      for (let t = 0; t < grid.slots; t++) {
        if (isUp[t] || !pairs.has(candidate.targetKey)) isOff[cellAt(grid, s, c, t)] = 1
      }
    }
  }
  return limited(grid, { isOff, asked: [] })
}

const keysOf = (objects: readonly ShowObject[], isOne: (object: ShowObject) => boolean): ReadonlySet<string> =>
  new Set(objects.filter(isOne).map(({ key }) => key))

/** By quarter: true when some telescope can show the Moon or a bright planet. */
function brightSlots(grid: Grid, objects: readonly ShowObject[]): readonly boolean[] {
  const bright = keysOf(objects, isBright)
  const isOn = (c: number, t: number): boolean =>
    grid.stations.some((_, s) => (grid.worth[cellAt(grid, s, c, t)] ?? 0) > 0)
  return Array.from({ length: grid.slots }, (_, t) =>
    grid.candidates.some((candidate, c) => bright.has(candidate.targetKey) && isOn(c, t)),
  )
}

/** The first thing to say: why there is nothing, or when neither Moon nor planet is up. */
function notesOf({ input, grid }: TourWork, stops: readonly Stop[]): readonly Remark[] {
  if (grid.stations.length === 0) return [{ code: 'tour.no-telescope' }]
  if (stops.length === 0) return [daylightOf(input) ?? { code: 'thin.nothing' }]
  const isUp = brightSlots(grid, input.objects)
  if (!isUp.includes(true)) return [{ code: 'thin.pairs-alone' }]
  return gapsOf(isUp).map(([from, to]) => ({ code: 'thin.without', values: spoken(input.night, grid, from, to) }))
}

/** Quarters in a row in which none of them can be shown, as first and first after. */
function gapsOf(isUp: readonly boolean[]): readonly (readonly [number, number])[] {
  const starts = isUp.flatMap((up, t) => (!up && (isUp[t - 1] ?? true) ? [t] : []))
  return starts.map((from) => {
    const next = isUp.indexOf(true, from)
    return [from, next < 0 ? isUp.length : next] as const
  })
}

function spoken({ site }: Night, { borders }: Grid, from: number, to: number): { from: string; to: string } {
  const time = (slot: number): string => {
    const at = borders[slot]
    return at === undefined ? '' : remarkClock(at, site.zone)
  }
  return { from: time(from), to: time(to) }
}
