import type { FinderStar, FinderTarget, Way } from '../tours/hops.ts'
import type { Site } from '../tours/site.ts'
import type { FinderKind } from '../tours/telescope.ts'
import type { Words } from '../words/words.ts'
import { chartEdge } from './finder-chart-edge.ts'
import type { LabelBox } from './finder-chart-labels.ts'
import {
  type DrawnHop,
  drawnHops,
  fieldRing,
  figureMarks,
  hatchedDisc,
  hopMarks,
  isOverSkyline,
  skylineMarks,
  starDot,
} from './finder-chart-marks.ts'
import { chartNames } from './finder-chart-names.ts'
import { type ChartScale, FOOT_PX, MAP, type Point, scaleOf, WIDTH } from './finder-chart-scale.ts'
import { finderNotes } from './finder-chart-words.ts'
import { type Svg, svgElement, svgPicture } from './svg.ts'

export interface FinderSubject {
  readonly target: FinderTarget
  readonly way: Way
  /** All that is known around the target, as seen at the instant. */
  readonly stars: readonly FinderStar[]
  /** The figures of constellations as pairs of keys of stars. */
  readonly figures: readonly (readonly [string, string])[]
  readonly at: Date
  readonly zone: string
  readonly horizon: Site['horizon']
  readonly finderFieldDeg: number
  /** Which way round the finder shows it; null where that is not known. */
  readonly finderView: Exclude<FinderKind, 'none'> | null
  /** Width of what the telescope shows; null where it is not known. */
  readonly mainFieldDeg: number | null
  /** The faintest V that is drawn. */
  readonly limitV: number
  /** Begins the ids of the drawing, since several share a page. */
  readonly idPrefix: string
}

/** A star as it was drawn. */
export interface ChartedStar extends Point {
  readonly key: string
  readonly magnitude: number
  readonly radiusPx: number
}

/** A round field as it was drawn. */
export interface DrawnField extends Point {
  readonly radiusPx: number
}

export interface FinderChart {
  readonly svg: Svg
  readonly notes: readonly string[]
  readonly heightPx: number
  readonly pxPerDeg: number
  readonly target: Point
  readonly stars: readonly ChartedStar[]
  readonly hops: readonly DrawnHop[]
  /** The finder's field around the target; null where bare eyes are enough. */
  readonly finderField: DrawnField | null
  /** The telescope's field; null where it would be a mere dot or bare eyes are enough. */
  readonly mainField: DrawnField | null
  readonly labels: readonly LabelBox[]
}

export interface Drawable extends FinderSubject {
  readonly way: Exclude<Way, { readonly kind: 'none' }>
  /** How high the whole drawing is, in fifths of a millimetre; null for as high as the way needs. */
  readonly heightPx: number | null
}

const MOST_STARS = 60
const LEAST_FIELD_PX = 4
const SAME_PX = 2

/**
 * The way from a bright star to a target as bare eyes see the sky, the zenith up, to be printed 84 mm wide: dots by
 * magnitude, straight hops with numbers, a plain ring for the finder's field and a hatched disc for the telescope's.
 */
export function finderChart(subject: Drawable, words: Words): FinderChart {
  const { way, target: it, finderFieldDeg, mainFieldDeg, idPrefix } = subject
  const mapHeightPx = subject.heightPx === null ? null : subject.heightPx - MAP.top - FOOT_PX.low
  const scale = scaleOf({ way, target: it.direction, finderFieldDeg, mapHeightPx })
  const heightPx = subject.heightPx ?? Math.ceil(MAP.top + scale.heightPx + FOOT_PX.whole)
  const target = scale.place(it.direction)
  const fieldOf = (widthDeg: number): DrawnField => ({ ...target, radiusPx: scale.radiusPx(it.direction, widthDeg) })
  const finderField = way.kind === 'hops' ? fieldOf(finderFieldDeg) : null
  const telescope = mainFieldDeg === null || way.kind === 'eyes' ? null : fieldOf(mainFieldDeg)
  const mainField = telescope !== null && telescope.radiusPx >= LEAST_FIELD_PX ? telescope : null
  const stars = starsOn(subject, scale, target)
  const hops = drawnHops(way, scale, stars, mainField?.radiusPx ?? 0, target)
  const names = chartNames({ subject, scale, target, stars, hops, finderField, mainField, words })
  const notes = finderNotes(subject, words)
  const clip = `${idPrefix}-finder`
  const box = { x: MAP.left, y: MAP.top, width: MAP.width, height: scale.heightPx, rx: 12 }
  const svg = svgPicture(
    {
      width: WIDTH,
      height: heightPx,
      title: words.say('finder.title', { name: it.name }),
      description: notes.join(' '),
    },
    svgElement('clipPath', { id: clip }, svgElement('rect', box)),
    svgElement(
      'g',
      { 'clip-path': `url(#${clip})` },
      ...figureMarks(subject, scale),
      ...skylineMarks(subject, scale),
      ...(finderField === null ? [] : [fieldRing(finderField)]),
      ...(mainField === null ? [] : hatchedDisc(mainField)),
      ...stars.toReversed().map(starDot),
      ...hopMarks(hops),
      ...names.svg,
    ),
    svgElement('rect', { ...box, fill: 'none', stroke: 'currentColor', 'stroke-width': 1.5 }),
    ...chartEdge(subject, scale, words),
  )
  const { pxPerDeg } = scale
  return { svg, notes, heightPx, pxPerDeg, target, stars, hops, finderField, mainField, labels: names.labels }
}

/** At most sixty stars of the piece that is drawn, brightest first; those of the way are always among them, those behind trees and roofs never. */
function starsOn(
  { way, stars, target: it, horizon, limitV }: Drawable,
  scale: ChartScale,
  target: Point,
): ChartedStar[] {
  const ofWay = way.kind === 'hops' ? way.hops.map(({ from }) => from.key) : []
  const charted = stars
    .filter(({ direction }) => isOverSkyline(direction, horizon))
    .map(({ key, magnitude, direction }) => ({ key, magnitude, ...scale.place(direction), radiusPx: dotPx(magnitude) }))
    .filter(
      (star) => isOnMap(star, scale) && !(it.isPoint && Math.hypot(star.x - target.x, star.y - target.y) < SAME_PX),
    )
  const others = charted.filter(({ key, magnitude }) => magnitude <= limitV && !ofWay.includes(key))
  const own = it.isPoint && it.magnitude !== null ? [pointTarget(it.magnitude, target)] : []
  const must = [...charted.filter(({ key }) => ofWay.includes(key)), ...own]
  const shown = [...must, ...others.sort((a, b) => a.magnitude - b.magnitude).slice(0, MOST_STARS - must.length)]
  return shown.sort((a, b) => a.magnitude - b.magnitude)
}

/** A star or planet that is looked for is itself a dot. */
const pointTarget = (magnitude: number, target: Point): ChartedStar => ({
  key: 'target',
  magnitude,
  ...target,
  radiusPx: dotPx(magnitude),
})

const isOnMap = ({ x, y, radiusPx }: ChartedStar, { heightPx }: ChartScale): boolean =>
  x > MAP.left + radiusPx &&
  x < MAP.left + MAP.width - radiusPx &&
  y > MAP.top + radiusPx &&
  y < MAP.top + heightPx - radiusPx

const dotPx = (magnitude: number): number => Math.min(10, Math.max(1.6, 8 - 1.12 * magnitude))
