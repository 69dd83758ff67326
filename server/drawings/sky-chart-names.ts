import type { FigureStroke } from '../tours/sky-over.ts'
import type { Words } from '../words/words.ts'
import type { Edges } from './covering.ts'
import { LETTERS, RIM } from './sky-chart-letters.ts'
import { isAboveSkyline, type Point, type Skyline, type SkyPaper } from './sky-chart-paper.ts'
import { type ChartLabel, type Crowd, cornersOf, isBold, placeWords, stepsAround } from './sky-chart-places.ts'
import type { DrawnStar } from './sky-chart-stars.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

const MOST_NAMES = 24
const STEPS = stepsAround([14, 26, 40, 54, 68])
const STEP_COST = 0.015
/** What the words may cover at most: twice as much for the name of a figure with much light. */
const MOST_COST = 3.5
const MOST_LIGHT = 20
const TARGET_SCORE = 1000
const LEAST_SCORE = 2.4
const SCORE_MAG = 0.5

interface Figure {
  readonly code: string
  readonly middle: Point
  /** How much of it is seen: its bright stars count most. */
  readonly score: number
}

interface FiguresInput {
  readonly strokes: readonly FigureStroke[]
  readonly drawn: readonly DrawnStar[]
  readonly limitV: number
  readonly targetConstellations: readonly string[]
  readonly skyline: Skyline
}

/** The names of the figures that people see most of, those with a target before all; one without room has none. */
export function figureNames(input: FiguresInput, paper: SkyPaper, crowd: Crowd, words: Words): readonly ChartLabel[] {
  const isOpen = (box: Edges): boolean => cornersOf(box).every((corner) => isAboveSkyline(corner, input.skyline, paper))
  return figuresOf(input, paper)
    .slice(0, MOST_NAMES)
    .flatMap(({ code, middle, score }) => {
      const text = words.say(`constellation.${code}`)
      const mostCost = MOST_COST * (1 + Math.min(score, MOST_LIGHT) / MOST_LIGHT)
      const wish = { text, kind: 'constellation' as const, at: middle, steps: STEPS, mayStand: isOpen }
      return placeWords({ ...wish, costPx: STEP_COST, mostCost }, crowd) ?? []
    })
}

/** The figures by what is seen of them, most first. */
function figuresOf({ strokes, drawn, limitV, targetConstellations, skyline }: FiguresInput, paper: SkyPaper): Figure[] {
  const open = drawn.filter(({ x, y }) => isAboveSkyline([x, y], skyline, paper))
  const byHip = new Map(open.map((star) => [star.hip, star]))
  const members = new Map<string, Set<DrawnStar>>()
  for (const { constellation, from, to } of strokes) {
    const own = members.get(constellation) ?? new Set()
    for (const star of [byHip.get(from.hip), byHip.get(to.hip)]) if (star) own.add(star)
    members.set(constellation, own)
  }
  return [...members]
    .filter(([, stars]) => stars.size > 0)
    .map(([code, stars]) => ({
      code,
      middle: middleOf([...stars]),
      score: (targetConstellations.includes(code) ? TARGET_SCORE : 0) + lightOf([...stars], limitV),
    }))
    .filter(({ score }) => score >= LEAST_SCORE)
    .sort((a, b) => b.score - a.score)
}

const lightOf = (stars: readonly DrawnStar[], limitV: number): number =>
  stars.reduce((sum, { magnitude }) => sum + limitV + SCORE_MAG - magnitude, 0)

function middleOf(stars: readonly DrawnStar[]): Point {
  const mean = (axis: 'x' | 'y'): number => stars.reduce((sum, star) => sum + star[axis], 0) / stars.length
  return [mean('x'), mean('y')]
}

/** Words on the sky; those of targets and bodies are bold. */
export const labelText = ({ text, kind, x, y }: ChartLabel): Svg =>
  svgElement(
    'text',
    {
      x,
      y,
      'text-anchor': 'middle',
      'font-weight': isBold(kind) ? 'bold' : 'normal',
      ...LETTERS,
      ...RIM,
    },
    svgText(text),
  )
