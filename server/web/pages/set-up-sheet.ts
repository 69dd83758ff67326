import type { SetUp } from '../../desk/alignment.ts'
import { linesOf } from '../../drawings/letter-widths.ts'
import type { AlignmentPair } from '../../tours/alignment.ts'
import type { AlignmentStar } from '../../tours/alignment-stars.ts'
import type { Station } from '../../tours/night.ts'
import { sunText } from './align.ts'
import { whereText } from './align-text.ts'
import { type SafetyRule, setUpSafety } from './fixed-words.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import { noStarsText, setUpLine } from './set-up.ts'
import type { Viewer } from './sheet.ts'
import { setupText } from './stop-line.ts'

export interface SetUpSheet {
  readonly title: string
  readonly subtitle: string
  readonly version: string
  readonly stale: string | null
  /** The rule of the Sun, which stands before everything. */
  readonly sun: string
  readonly timeLabel: string
  readonly stepLabel: string
  readonly doneLabel: string
  readonly initialsLabel: string
  readonly steps: readonly { readonly time: string; readonly text: string }[]
  readonly alignLabel: string
  /** The best pairs and their proof, or that no star comes out; empty where none can be named, so that a pen may. */
  readonly align: string
  readonly safetyLabel: string
  readonly local: string
  readonly safety: readonly SafetyRule[]
  readonly glassLabel: string
  /** What to have ready at each telescope, in the order of its use. */
  readonly glass: readonly { readonly station: string; readonly text: string }[]
  readonly glassNone: string
  /** True where so many telescopes stand in the row that their glass has a page of its own. */
  readonly isGlassApart: boolean
  /** True where its sentences are so long that a page holds them in smaller letters alone. */
  readonly isDense: boolean
}

/**
 * What a page leaves below the timeline for the stars and the glass, in lines of 14 points; what a blank line for a pen
 * takes of it; and their width in type sizes.
 */
const ROOM_LINES = 9
const BLANK_LINES = 2
const LINE_EM = 38
/** As many lines of 14 points as a page of either paper holds, and the width of a step in type sizes. */
const PAGE_LINES = 30
const STEP_EM = 26

/** From the arrival to the last walk over the field, with room for a tick and initials at each step. */
export function setUpSheet(viewer: Viewer, subject: PrintSubject): SetUpSheet {
  const { words } = viewer
  const { night, tour, setUp, isStale } = subject
  const glass = night.stations
    .filter(({ telescope }) => telescope !== null)
    .map((station) => ({ station: station.name, text: glassText(viewer, subject, station) }))
  const align = alignText(viewer, setUp)
  const steps = setUp.times.map((time) => setUpLine(words, night, time))
  const safety = setUpSafety(words)
  return {
    ...labels(viewer),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    sun: sunText(words, setUp.sun),
    steps,
    align,
    safety,
    glass,
    isGlassApart: alignLines(words.say('set-up.align-label'), align) + glassLines(glass) > ROOM_LINES,
    isDense:
      stepLines(steps) + safetyLines(safety) + alignLines(words.say('set-up.align-label'), align) + glassLines(glass) >
      PAGE_LINES,
  }
}

const linesOfText = (text: string): number => linesOf(text, LINE_EM).length

const stepLines = (steps: SetUpSheet['steps']): number =>
  steps.reduce((sum, { text }) => sum + linesOf(text, STEP_EM).length, 0)

const safetyLines = (safety: readonly SafetyRule[]): number =>
  safety.reduce((sum, { name, text }) => sum + linesOfText(`${name} ${text}`), 0)

const alignLines = (label: string, align: string): number =>
  align === '' ? BLANK_LINES : linesOfText(`${label} ${align}`)

const glassLines = (glass: SetUpSheet['glass']): number =>
  glass.reduce((sum, { station, text }) => sum + linesOfText(`${station}: ${text}`), 0)

/** The best pair and another with where to look for them, and the proof of the best; or that no star comes out. */
function alignText({ words }: Viewer, setUp: SetUp): string {
  const [best, other] = setUp.pairs
  const noStars = noStarsText(words, setUp)
  if (noStars !== null) return noStars
  if (best === undefined) return ''
  const starText = (star: Pick<AlignmentStar, 'name' | 'direction'>) =>
    words.say('set-up.align-star', { name: star.name, where: whereText(words, star) })
  const pairText = ({ stars: [first, second] }: AlignmentPair) =>
    words.say('set-up.align-pair', { first: starText(first), second: starText(second) })
  const { proof } = best
  return [
    other
      ? words.say('set-up.align-or', { best: pairText(best), other: pairText(other) })
      : words.say('set-up.align-best', { best: pairText(best) }),
    ...(proof ? [words.say('set-up.align-proof', { star: starText(proof) })] : []),
  ].join(' ')
}

const labels = ({ words }: Viewer) => ({
  title: words.say('print.set-up-sheet'),
  timeLabel: words.say('print.time'),
  stepLabel: words.say('set-up.step'),
  doneLabel: words.say('set-up.done'),
  initialsLabel: words.say('set-up.initials'),
  alignLabel: words.say('set-up.align-label'),
  safetyLabel: words.say('print.safety'),
  local: words.say('set-up.local'),
  glassLabel: words.say('set-up.glass'),
  glassNone: words.say('set-up.glass-none'),
})

/** Each eyepiece once, in the order in which the stops ask for it. */
function glassText({ words }: Viewer, { tour }: PrintSubject, station: Station): string {
  const stops = tour.stops
    .filter(({ stationId }) => stationId === station.id)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const texts = stops.flatMap(({ setups }) => setups.flatMap((setup) => setupText(words, station, setup)))
  const inOrder = [...new Set(texts)]
  return inOrder.length === 0 ? words.say('set-up.glass-free') : inOrder.join('; ')
}
