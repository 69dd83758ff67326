import type { FinderStar } from '../tours/hops.ts'
import type { Words } from '../words/words.ts'
import { type Obstacle, obstaclesAlong } from './covering.ts'
import type { ChartedStar, Drawable, DrawnField } from './finder-chart.ts'
import { type Anchor, type LabelBox, nameLines, placeLabel } from './finder-chart-labels.ts'
import { type DrawnHop, isDrawn } from './finder-chart-marks.ts'
import { type ChartScale, LETTERS, LINE_PX, type Point } from './finder-chart-scale.ts'
import { calledName } from './finder-chart-words.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

interface NamesInput {
  readonly subject: Drawable
  readonly scale: ChartScale
  readonly target: Point
  readonly stars: readonly ChartedStar[]
  readonly hops: readonly DrawnHop[]
  readonly finderField: DrawnField | null
  readonly mainField: DrawnField | null
  readonly words: Words
}

/** How bad it is to cover a thing with words. */
const WEIGHTS = { star: 1, wayStar: 8, hop: 2, ring: 0.3, main: 3 } as const
/** The target's own name and the number of a hop stay near, even over small stars. */
const AWAY_WEIGHTS = { target: 0.12, star: 0.08, hop: 0.12 } as const
const ALONG_HOP = { stepPx: 6, radiusPx: 3, weight: WEIGHTS.hop }
const RING_POINTS = 60

/** The names of the target and of the stars of the way, and the numbers of the hops, each where it covers least. */
export function chartNames(input: NamesInput): { readonly svg: readonly Svg[]; readonly labels: readonly LabelBox[] } {
  const { subject, scale, target, stars, hops, mainField, words } = input
  const obstacles = obstaclesOf(input)
  const labels: LabelBox[] = []
  const add = (text: readonly string[], anchor: Anchor): void => {
    const box = placeLabel(text, anchor, obstacles, labels, scale.heightPx)
    if (box !== null) labels.push(box)
  }
  const ownPx = stars.find(({ key }) => key === 'target')?.radiusPx ?? 3
  add(nameLines(words.called(subject.target.name)), {
    ...target,
    gapPx: Math.max(mainField?.radiusPx ?? 0, ownPx),
    awayWeight: AWAY_WEIGHTS.target,
  })
  for (const star of namedOn(subject, stars))
    add(nameLines(words.called(star.name)), { ...star, gapPx: star.radiusPx, awayWeight: AWAY_WEIGHTS.star })
  hops.forEach((hop, index) => {
    if (isDrawn(hop)) add([String(index + 1)], { ...halfWayOf(hop), gapPx: 3, awayWeight: AWAY_WEIGHTS.hop })
  })
  return { svg: labels.flatMap(labelText), labels }
}

/** The stars of the way that have a name, and wanderers, brightest of all. */
function namedOn({ way, stars: known }: Drawable, stars: readonly ChartedStar[]): (ChartedStar & { name: string })[] {
  const ofWay = way.kind === 'hops' ? way.hops.map(({ from }) => from) : []
  const [start] = ofWay
  const nameOf = (star: FinderStar): string | null => {
    if (star === start || star.isWanderer) return star.name
    return ofWay.includes(star) ? calledName(star) : null
  }
  return stars.flatMap((star) => {
    const found = known.find(({ key }) => key === star.key)
    const name = found === undefined ? null : nameOf(found)
    return name === null ? [] : [{ ...star, name }]
  })
}

/** The middle of what is drawn of a hop. */
function halfWayOf({ from, to, gapFromPx, gapToPx }: DrawnHop): Point {
  const longPx = Math.hypot(to.x - from.x, to.y - from.y)
  const share = longPx === 0 ? 0.5 : (longPx + gapFromPx - gapToPx) / (2 * longPx)
  return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }
}

function obstaclesOf({ subject, stars, hops, finderField, mainField }: NamesInput): readonly Obstacle[] {
  const { way } = subject
  const ofWay = way.kind === 'hops' ? way.hops.map(({ from }) => from.key) : []
  const weightOf = (key: string): number => (key === 'target' || ofWay.includes(key) ? WEIGHTS.wayStar : WEIGHTS.star)
  return [
    ...stars.map(({ key, x, y, radiusPx }) => ({ x, y, radiusPx: radiusPx + 2, weight: weightOf(key) })),
    ...hops.flatMap(({ from, to }) => obstaclesAlong([from.x, from.y], [to.x, to.y], ALONG_HOP)),
    ...(finderField === null ? [] : pointsAround(finderField)),
    ...(mainField === null ? [] : [{ ...mainField, weight: WEIGHTS.main }]),
  ]
}

const pointsAround = ({ x, y, radiusPx }: DrawnField): Obstacle[] =>
  Array.from({ length: RING_POINTS }, (_, k) => {
    const turn = (2 * Math.PI * k) / RING_POINTS
    return { x: x + radiusPx * Math.cos(turn), y: y + radiusPx * Math.sin(turn), radiusPx: 1, weight: WEIGHTS.ring }
  })

const BASE_PX = 18

/** The lines of a label over a white rim, so that what runs below does not cut the letters. */
function labelText({ text, left, right, top }: LabelBox): Svg[] {
  const rim = { stroke: 'white', 'stroke-width': 5, 'stroke-linejoin': 'round', 'paint-order': 'stroke' }
  return text.map((line, index) =>
    svgElement(
      'text',
      { x: (left + right) / 2, y: top + BASE_PX + index * LINE_PX, 'text-anchor': 'middle', ...LETTERS, ...rim },
      svgText(line),
    ),
  )
}
