import type { SkyEvening } from '../sky/evening.ts'
import type { Night, Station } from '../tours/night.ts'
import type { Cause, Stop } from '../tours/tour.ts'
import type { Words } from '../words/words.ts'
import { type BarLine, type DrawnHead, headOf, type Tick } from './score-head.ts'
import { scoreSvg } from './score-paper.ts'
import { LABEL_MM } from './score-said.ts'
import { type DrawnStaff, staffOf } from './score-staff.ts'
import { rangeOf, timeScale } from './score-time.ts'
import type { Svg } from './svg.ts'
import { LEAST_PT, USUAL_PT } from './word-box.ts'

export interface ScoreSubject {
  readonly night: Night
  readonly stops: readonly Stop[]
  readonly evening: SkyEvening
  /** What people call the target of a stop. */
  readonly nameOf: (stop: Stop) => string
  /** Why a target is left, in a word or two. */
  readonly causeOf: (cause: Cause) => string
  /** How wide it is printed: A4 or Letter, on its side. */
  readonly widthMm: number
}

/** The live width of a sheet on its side, and the height that both papers have. */
export const SCORE_WIDTH_MM = { a4: 270, letter: 254 } as const
export const SCORE_HEIGHT_MM = 175

/** A staff where it stands on its sheet: `topMm` to `footMm`, its five lines from `lineMm` down. */
export interface PlacedStaff extends DrawnStaff {
  readonly lineMm: number
}

/** One sheet; all lengths are millimetres at the printed width, and `xOf` is where a moment stands. */
export interface ScoreSheet {
  readonly svg: Svg
  readonly widthMm: number
  readonly heightMm: number
  readonly fromAt: Date
  readonly toAt: Date
  readonly xOf: (at: Date) => number
  readonly barLines: readonly BarLine[]
  readonly ticks: readonly Tick[]
  readonly about: DrawnHead['about']
  readonly staves: readonly PlacedStaff[]
}

interface Score {
  readonly sheets: readonly ScoreSheet[]
}

const LEAST_GAP_MM = 2.5
const MOST_GAP_MM = 9
const AFTER_LABEL_MM = 4
const EDGE_MM = 3
const HOUR_MS = 3_600_000

interface Part {
  readonly fromAt: Date
  readonly toAt: Date
  readonly head: DrawnHead
  readonly staves: readonly DrawnStaff[]
}

/**
 * The whole row through the evening, like music seen from afar: one staff a station, time from left to right, every stop a
 * note with its name, and what holds for all as lines across. Letters are 14 pt at the printed width, names on short bars 12
 * pt at least. Where the row does not fit the height of one sheet there are several, each with the whole evening; where a
 * single station does not, each has a part of the evening.
 */
export function eveningScore(subject: ScoreSubject, words: Words): Score {
  const { fromAt, toAt } = rangeOf(subject.night, subject.stops)
  const parts = partsOf(subject, words, fromAt, toAt)
  const named = (i: number) =>
    parts.length > 1 ? words.say('score.sheet', { sheet: i + 1, sheets: parts.length }) : null
  return { sheets: parts.map((part, i) => sheetOf(subject, words, part, named(i))) }
}

const scaleOf = ({ widthMm }: ScoreSubject, fromAt: Date, toAt: Date) =>
  timeScale(fromAt, toAt, LABEL_MM + AFTER_LABEL_MM, widthMm - EDGE_MM)

const highOf = ({ topMm, footMm }: DrawnStaff): number => footMm - topMm

function partsOf(subject: ScoreSubject, words: Words, fromAt: Date, toAt: Date): Part[] {
  const scale = scaleOf(subject, fromAt, toAt)
  const head = headOf(subject, words, scale, words.say('score.sheet', { sheet: 1, sheets: 2 }))
  const room = SCORE_HEIGHT_MM - head.highMm - 2 * LEAST_GAP_MM
  const drawn = (station: Station, hungPt: number) => staffOf(station, { subject, words, scale, hungPt })
  const staves = subject.night.stations.map((station) => {
    const staff = drawn(station, USUAL_PT)
    return highOf(staff) <= room ? staff : drawn(station, LEAST_PT)
  })
  const isTooHigh = staves.some((staff) => highOf(staff) > room)
  if (isTooHigh && toAt.getTime() - fromAt.getTime() > HOUR_MS) {
    const middle = new Date((fromAt.getTime() + toAt.getTime()) / 2)
    return [...partsOf(subject, words, fromAt, middle), ...partsOf(subject, words, middle, toAt)]
  }
  return grouped(staves, room).map((group) => ({ fromAt, toAt, head, staves: group }))
}

/** The staves in as few sheets as hold them, each about as full as the others. */
function grouped(staves: readonly DrawnStaff[], room: number): readonly (readonly DrawnStaff[])[] {
  const least = filled(staves, room)
  for (let limit = room / 2; limit < room; limit += 4) {
    const even = filled(staves, limit)
    if (even.length === least.length) return even
  }
  return least
}

function filled(staves: readonly DrawnStaff[], room: number): DrawnStaff[][] {
  const sheets: DrawnStaff[][] = []
  let left = -1
  for (const staff of staves) {
    const high = highOf(staff) + LEAST_GAP_MM
    if (left < high) sheets.push([])
    left = (left < high ? room : left) - high
    sheets.at(-1)?.push(staff)
  }
  return sheets
}

function sheetOf(subject: ScoreSubject, words: Words, part: Part, sheet: string | null): ScoreSheet {
  const { fromAt, toAt, staves } = part
  const scale = scaleOf(subject, fromAt, toAt)
  const head = headOf(subject, words, scale, sheet)
  const sum = staves.reduce((high, staff) => high + highOf(staff), head.highMm)
  const gap = Math.min(MOST_GAP_MM, Math.max(LEAST_GAP_MM, (SCORE_HEIGHT_MM - sum) / (staves.length + 1)))
  let y = head.highMm + gap
  const placed = staves.map((staff): PlacedStaff => {
    const lineMm = y - staff.topMm
    y += highOf(staff) + gap
    return { ...staff, lineMm }
  })
  const { barLines, ticks, about } = head
  const facts = {
    widthMm: subject.widthMm,
    heightMm: y,
    fromAt,
    toAt,
    xOf: scale.xOf,
    barLines,
    ticks,
    about,
    staves: placed,
  }
  return { ...facts, svg: scoreSvg(facts, scale, subject, words, sheet) }
}
