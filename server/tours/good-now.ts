import type { CheckLine } from './check.ts'
import { type LineInput, lineOf } from './check-line.ts'
import { seenAtStep } from './evening-chance.ts'
import { type Scope, scopeOf, viewsOf, type Weighed, weigh } from './good-now-weigh.ts'
import { sunCause } from './offered.ts'
import { stepAt, sunAtStep } from './sky-at.ts'
import type { SkyPart } from './sky-part.ts'
import type { Aim, ShowObject } from './target.ts'
import type { Remark, Setup } from './tour.ts'
import type { Wish } from './wish.ts'

/** A thing as it stands now at one telescope. */
export interface NowLine extends CheckLine {
  readonly setups: readonly Setup[]
  /** Chance that a newcomer sees it, 0 to 1. */
  readonly chance: number
  /** Of one look in the next quarter hour; 0 where it is not well placed and seen by most for all of it. */
  readonly worth: number
  /** Why it is not offered though it stands in the open; null when nothing speaks against it. */
  readonly but: Remark | null
}

/** What one telescope could show now in place of what it shows. */
export interface GoodNow {
  readonly at: Date
  /** What is on there, as it stands; null where nothing is. */
  readonly on: NowLine | null
  /** At most six, the worthiest first. */
  readonly lines: readonly NowLine[]
  /** The things asked for, those that stand in the open first. */
  readonly asked: readonly NowLine[]
  /** Why nothing is listed; null when something is. */
  readonly note: Remark | null
}

/** What a telescope of the row shows. */
export interface Shown {
  readonly stationId: string
  readonly targetKey: string
  readonly aim: Aim
}

/** What is told of the night at that instant. */
export interface GoodNowAsk {
  readonly stationId: string
  readonly at: Date
  /** What the whole row shows now. */
  readonly row: readonly Shown[]
  /** What this telescope shows next by the plan: it needs no other way. */
  readonly nextKey: string | null
  readonly shut: readonly SkyPart[]
  readonly wishes: readonly Wish[]
  readonly askedKeys: readonly string[]
}

export interface GoodNowInput extends LineInput, GoodNowAsk {
  readonly objects: readonly ShowObject[]
}

const LINES = 6

/**
 * Six good things that one telescope could show now: well placed and seen by most for a quarter hour, in no part of the
 * sky that is told to be shut, not barred by the host, and at no more telescopes at once than a thing may be. Throws for
 * an instant that is not reckoned.
 */
export function goodNow(input: GoodNowInput): GoodNow {
  const { at, row, stationId, nextKey, askedKeys } = input
  const isSunUp = sunCause(sunAtStep(input.sky, stepAt(input.sky, at))) !== null
  const scope = scopeOf(input)
  if (scope === null) return { at, on: null, lines: [], asked: [], note: { code: 'now.no-telescope' } }
  const here = row.find((shown) => shown.stationId === stationId)
  const others = input.objects.map(({ key }) => key).filter((key) => key !== here?.targetKey && key !== nextKey)
  const good = weighAll(scope, others).filter(({ worth, but }) => worth > 0 && but === null)
  const lines = isSunUp ? [] : ranked(good).slice(0, LINES)
  return {
    at,
    on: here === undefined ? null : onNow(scope, here),
    lines: lines.map((weighed) => nowLine(scope, weighed)),
    asked: inOrder(ranked(weighAll(scope, askedKeys)).map((weighed) => nowLine(scope, weighed))),
    note: lines.length > 0 ? null : { code: isSunUp ? 'hole.sun' : 'now.nothing' },
  }
}

const weighAll = (scope: Scope, keys: readonly string[]): Weighed[] =>
  viewsOf(scope, keys).map((view) => weigh(scope, view))

function onNow(scope: Scope, { targetKey, aim }: Shown): NowLine | null {
  const view = viewsOf(scope, [targetKey]).find((it) => it.aim === aim)
  return view === undefined ? null : nowLine(scope, weigh(scope, view))
}

/** The worthiest first; of a whole view and a close one the better alone. */
function ranked(weighed: readonly Weighed[]): readonly Weighed[] {
  const best = new Map<string, Weighed>()
  for (const each of weighed.toSorted((a, b) => b.worth - a.worth)) {
    if (!best.has(each.object.key)) best.set(each.object.key, each)
  }
  return [...best.values()]
}

/** What stands in the open first, the worthiest of it first; then what comes, the soonest first. */
const inOrder = (lines: readonly NowLine[]): NowLine[] =>
  lines.toSorted((a, b) => Number(isOpen(b)) - Number(isOpen(a)) || b.worth - a.worth || soonMs(a) - soonMs(b))

/** True for a thing that is well placed at that moment. */
export const isOpen = ({ group }: Pick<CheckLine, 'group'>): boolean => group === 'good' || group === 'going'

const soonMs = ({ fromAt }: CheckLine): number => fromAt?.getTime() ?? Number.MAX_SAFE_INTEGER

function nowLine({ input, place, station, telescope }: Scope, weighed: Weighed): NowLine {
  const { chance, sky, at } = input
  const { object, targetIndex, aim, column, worth, but } = weighed
  const cell = place * chance.candidates.length + (column ?? 0)
  const setups = column === null ? [] : [chance.setups[cell], chance.besides[cell]].flatMap((setup) => setup ?? [])
  const line = lineOf(
    input,
    { station, telescope, targetKey: object.key, targetIndex, aim, setups, isSpare: false },
    at,
  )
  const seen = column === null ? 0 : seenAtStep(chance, place, column, Math.round(stepAt(sky, at))).chance
  return { ...line, setups, chance: seen, worth, but }
}
