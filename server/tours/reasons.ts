import type { TourInput } from './build.ts'
import { cellAt, type Grid, type GridCandidate, type GridStation } from './grid.ts'
import { nightHours, remarkClock } from './hours.ts'
import { isInForce, isNamed } from './limits.ts'
import { comesAt, type Gate, whyNotOf } from './offered.ts'
import { ANYONE } from './rules.ts'
import { type Run, setupsOf, sumOver } from './runs.ts'
import { targetAt } from './sky-at.ts'
import type { Cause, LeaveBy, Remark, Setup } from './tour.ts'

const SOON_MIN = 60
const JUST_MIN = 45
const BETTER_VIEW = 0.07
const OPEN_SKY = { fromDeg: 30, toDeg: 70 }
const SHOWPIECE_APPEAL = 0.85
const DARKER_CHANCE = 0.1

interface Story {
  readonly input: TourInput
  readonly grid: Grid
  readonly run: Run
  readonly station: GridStation
  readonly candidate: GridCandidate
  readonly startsAt: Date
  readonly endsAt: Date
  readonly leave: LeaveBy | null
}

/** Why this stop is here and now, the weightiest first, one to four. */
export function reasonsOf(input: TourInput, grid: Grid, run: Run, leave: LeaveBy | null): readonly Remark[] {
  const [station, candidate] = [grid.stations[run.station], grid.candidates[run.candidate]]
  const [startsAt, endsAt] = [grid.borders[run.from], grid.borders[run.to]]
  if (station === undefined || candidate === undefined || startsAt === undefined || endsAt === undefined) return []
  const story: Story = { input, grid, run, station, candidate, startsAt, endsAt, leave }
  const all = [
    wished,
    moonAlways,
    leavesFirst,
    comesNow,
    darkEnough,
    bestHere,
    forAll,
    showpieceLast,
    anyoneSees,
    inTheOpen,
    oneTube,
  ]
  const found = all.flatMap((reason) => reason(story))
  return found.length > 0 ? found.slice(0, 4) : [{ code: 'tour.most-worth' }]
}

/** The host wished for it. */
function wished({ input, station, candidate, startsAt, endsAt }: Story): Remark[] {
  const { wishes = [], night } = input
  const isWished = wishes.some(
    (wish) =>
      wish.kind !== 'bar' &&
      (wish.stationId === null || wish.stationId === station.id) &&
      isNamed(wish, candidate) &&
      isInForce(wish, night, startsAt, endsAt),
  )
  return isWished ? [{ code: 'tour.wished' }] : []
}

const moonAlways = ({ candidate }: Story): Remark[] => (candidate.kind === 'moon' ? [{ code: 'tour.moon-always' }] : [])

const LEAVES: Readonly<Record<Cause['code'], string>> = {
  skyline: 'tour.sets-first',
  low: 'tour.sinks-first',
  set: 'tour.sinks-first',
  high: 'tour.climbs-first',
  faint: 'tour.fades-first',
  sun: 'tour.sun-first',
  closing: 'tour.closing-first',
}

/** It goes behind something, sinks or climbs out of reach soon after the stop ends, so it comes first. */
function leavesFirst({ input, endsAt, leave, candidate }: Story): Remark[] {
  if (leave === null || candidate.kind === 'moon') return []
  const minutes = (leave.at.getTime() - endsAt.getTime()) / 60_000
  if (minutes > SOON_MIN) return []
  return [spoken(input, LEAVES, leave)]
}

const COMES: Readonly<Record<Cause['code'], string>> = {
  skyline: 'tour.comes-clear',
  low: 'tour.high-enough',
  set: 'tour.high-enough',
  high: 'tour.down-from-top',
  faint: 'tour.dark-enough',
  sun: 'tour.sun-gone',
  closing: 'tour.high-enough',
}

/** It has just become well placed. */
function comesNow({ input, candidate, station, startsAt }: Story): Remark[] {
  const { opensAt } = nightHours(input.night)
  if (startsAt <= opensAt) return []
  const gate: Gate = { sky: input.sky, site: input.night.site, mount: station.telescope }
  const whyNot = whyNotOf(gate, candidate.targetIndex)
  const comes = lastComing(input, whyNot, opensAt, startsAt)
  if (comes === null || startsAt.getTime() - comes.at.getTime() > JUST_MIN * 60_000) return []
  return [spoken(input, COMES, comes)]
}

function lastComing(
  input: TourInput,
  whyNot: ReturnType<typeof whyNotOf>,
  fromAt: Date,
  untilAt: Date,
): LeaveBy | null {
  const quarters = Math.round((untilAt.getTime() - fromAt.getTime()) / 900_000)
  for (let k = quarters - 1; k >= 0; k--) {
    const at = new Date(fromAt.getTime() + k * 900_000)
    const step = (at.getTime() - input.sky.startsAt.getTime()) / (input.sky.stepMin * 60_000)
    if (whyNot(step) !== null) return comesAt(input.sky, whyNot, at, untilAt)
  }
  return null
}

function spoken({ night }: TourInput, codes: Readonly<Record<Cause['code'], string>>, { at, cause }: LeaveBy): Remark {
  const time = remarkClock(at, night.site.zone)
  const isNameless = cause.code === 'skyline' && !cause.name
  const code = isNameless ? codes.low : codes[cause.code]
  return { code, values: cause.name ? { name: cause.name, time } : { time } }
}

/** Twilight has gone since the opening and the chance has grown with it. */
function darkEnough({ grid, run }: Story): Remark[] {
  const first = grid.chance[cellAt(grid, run.station, run.candidate, 0)] ?? 0
  const now = grid.chance[cellAt(grid, run.station, run.candidate, run.from)] ?? 0
  return run.from > 0 && first > 0 && now - first > DARKER_CHANCE ? [{ code: 'tour.dark-enough' }] : []
}

/** No other telescope of the row shows it as well. */
function bestHere({ input, grid, run, station, candidate }: Story): Remark[] {
  const views = grid.stations.map((_, s) => sumOver(grid, { ...run, station: s }, grid.meanView) / (run.to - run.from))
  const mine = views[run.station] ?? 0
  const others = Math.max(0, ...views.filter((_, s) => s !== run.station))
  if (grid.stations.length < 2 || mine - others < BETTER_VIEW) return []
  const setup = grid.setups[run.station * grid.candidates.length + run.candidate]
  const aperture = station.telescope.tubes.find(({ id }) => id === setup?.tubeId)?.apertureMm ?? 0
  const apertures = input.night.stations.flatMap((other) => other.telescope?.tubes.map((tube) => tube.apertureMm) ?? [])
  if (aperture >= Math.max(...apertures)) return [{ code: 'tour.best-in-big', values: { aperture } }]
  const isWide = candidate.kind === 'open-cluster' || candidate.kind === 'asterism'
  return isWide
    ? [{ code: 'tour.wide-field', values: { degrees: (setup?.trueFieldDeg ?? 0).toFixed(1) } }]
    : [{ code: 'tour.best-here' }]
}

/** One of the three best things, at a telescope for children or for chairs. */
function forAll({ grid, run, station }: Story): Remark[] {
  if (grid.isBest[run.candidate * grid.slots + run.from] !== 1) return []
  if (station.isForChildren) return [{ code: 'tour.children' }]
  return station.isForChair ? [{ code: 'tour.chair' }] : []
}

const showpieceLast = ({ grid, run, candidate }: Story): Remark[] =>
  run.to === grid.slots && candidate.appeal >= SHOWPIECE_APPEAL ? [{ code: 'tour.showpiece-last' }] : []

const anyoneSees = ({ grid, run }: Story): Remark[] =>
  sumOver(grid, run, grid.meanChance) / (run.to - run.from) >= ANYONE ? [{ code: 'tour.anyone-sees' }] : []

function inTheOpen({ input, candidate, startsAt, endsAt, leave }: Story): Remark[] {
  const heights = [startsAt, endsAt].map((at) => targetAt(input.sky, candidate.targetIndex, at).altitudeDeg)
  const isOpen = heights.every((height) => height >= OPEN_SKY.fromDeg && height <= OPEN_SKY.toDeg)
  return isOpen && leave === null
    ? [{ code: 'tour.in-the-open', values: { degrees: Math.round(heights[0] ?? 0) } }]
    : []
}

/** Two tubes side by side share one place and one line: the looks are counted for the first; the other is a second look, or stays capped. */
function oneTube({ grid, run, station }: Story): Remark[] {
  if (station.telescope.tubes.length < 2) return []
  const [setup, beside] = setupsOf(grid, run.station, run.candidate)
  const nameOf = (asked: Setup | undefined) => station.telescope.tubes.find(({ id }) => id === asked?.tubeId)?.name
  const [tube, second] = [nameOf(setup), nameOf(beside)]
  if (tube === undefined) return []
  if (second === undefined || !setup || !beside) return [{ code: 'tour.one-tube', values: { tube } }]
  const code = setup.trueFieldDeg > beside.trueFieldDeg ? 'tour.tubes-wide-first' : 'tour.tubes-close-first'
  return [{ code, values: { tube, second } }]
}
