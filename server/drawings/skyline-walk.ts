import type { ClearSpan } from '../tours/clear-spans.ts'
import { POINT_DEG } from '../tours/pointing.ts'
import type { Site } from '../tours/site.ts'
import type { WalkPoint } from '../tours/walks.ts'
import { pointShort } from '../words/directions.ts'
import type { Words } from '../words/words.ts'
import { type NamedThing, namesOnSkyline, skylineOf } from './skyline.ts'
import { pointsText, type Svg, svgElement, svgPicture } from './svg.ts'
import { barMarks, type ClearBar, clearBar } from './walk-bar.ts'
import { DOT_MM, type DrawnMoment, momentsOf, wayOf } from './walk-moments.ts'
import { type Scale, scaleOf, WALK_PAPER, type WalkPaper } from './walk-scale.ts'
import { type Box, boxAt, lineMm, overlaps, textIn, widthMm } from './word-box.ts'
import { wordsIn } from './word-paper.ts'

/** Lengths are millimetres at the printed width. */
interface WalkDrawing {
  readonly svg: Svg
  readonly widthMm: number
  readonly heightMm: number
  /** Azimuths at the left and right edge in degrees (the right one may pass 360), altitude at the top. */
  readonly fromDeg: number
  readonly toDeg: number
  readonly topDeg: number
  readonly moments: readonly DrawnMoment[]
  readonly things: readonly NamedThing[]
  readonly bar: ClearBar
}

interface WalkSubject {
  readonly walk: readonly WalkPoint[]
  readonly clear: readonly ClearSpan[]
  readonly site: Pick<Site, 'horizon' | 'zone'>
  readonly name: string
}

/**
 * The walk of one object over the public hours above the trees and roofs of the site, compass points along the foot and
 * fists (10 degrees) up the side; behind something it is dashed. Beneath it one bar says when it is clear. Null when it stays
 * below the horizon. It is printed as wide as its paper is.
 */
export function skylineWalk(
  { walk, clear, site, name }: WalkSubject,
  words: Words,
  paper: WalkPaper = WALK_PAPER,
): WalkDrawing | null {
  const up = walk.filter(({ altitudeDeg }) => altitudeDeg > 0)
  const [first, last] = [walk[0], walk.at(-1)]
  if (up.length === 0 || !first || !last) return null
  const scale = scaleOf(up, paper)
  const { fromDeg, toDeg, topDeg } = scale
  const moments = momentsOf(up, scale, site.zone, words)
  const times = moments.flatMap(({ time }) => time ?? [])
  const things = namesOnSkyline(site.horizon, scale, times, wayOf(up, scale))
  const pointsY = Math.max(paper.groundMm + 1, ...things.map(({ box }) => box.y2))
  const pitch = lineMm(paper.sizePt)
  const barSubject = { clear, fromAt: first.at, toAt: last.at, zone: site.zone, paper, topMm: pointsY + 1.4 * pitch }
  const bar = clearBar(barSubject, words)
  const heightMm = Math.ceil(bar.footMm + 1)
  const svg = svgPicture(
    {
      width: paper.widthMm,
      height: heightMm,
      title: words.say('drawing.walk', { name }),
      description: words.say('drawing.walk-desc', { name }),
    },
    ...skylineOf(site.horizon, scale),
    ...fistLines(scale, words),
    ...compassPoints(scale, pointsY, words).flatMap((box) => wordsIn(box, 0)),
    ...thingMarks(things, paper.groundMm),
    ...pathOf(up, scale),
    ...moments.flatMap(momentMarks),
    ...barMarks(bar),
  )
  return { svg, widthMm: paper.widthMm, heightMm, fromDeg, toDeg, topDeg, moments, things, bar }
}

const line = (x1: number, y1: number, x2: number, y2: number, width: number, dash = ''): Svg =>
  svgElement('line', {
    x1,
    y1,
    x2,
    y2,
    stroke: 'currentColor',
    'stroke-width': width,
    ...(dash ? { 'stroke-dasharray': dash } : {}),
  })

/** A thin line with its number for every fist, and the word at the top. */
function fistLines({ topDeg, y, paper }: Scale, words: Words): Svg[] {
  const pitch = lineMm(paper.sizePt)
  const label = (text: string, middle: number): Svg[] =>
    wordsIn(boxAt(textIn(text, paper.widthMm, paper.sizePt), 0, middle - pitch / 2), 0)
  const fists = Array.from({ length: topDeg / 10 - 1 }, (_, k) => k + 1)
  return [
    ...fists.map((fist) => line(paper.leftMm, y(fist * 10), paper.widthMm, y(fist * 10), 0.25, '0.6 2.4')),
    ...fists.flatMap((fist) => label(String(fist), y(fist * 10))),
    ...label(words.say('drawing.walk-fists'), y(topDeg) - paper.headMm / 2),
  ]
}

/** The compass points along the foot; those without room are left out. */
function compassPoints({ fromDeg, toDeg, x, paper }: Scale, y: number, words: Words): Box[] {
  const step = toDeg - fromDeg > 150 ? 2 : 1
  const boxes: Box[] = []
  for (let point = Math.ceil(fromDeg / (POINT_DEG * step)) * step; point * POINT_DEG <= toDeg; point += step) {
    const text = textIn(pointShort(words, point), paper.widthMm, paper.sizePt, true)
    const wide = widthMm(text)
    const x1 = x(point * POINT_DEG) - wide / 2
    const box = boxAt(text, x1, y)
    if (box.x2 > paper.widthMm || x1 < 0 || boxes.some((other) => overlaps(other, box, 2))) continue
    boxes.push(box)
  }
  return boxes
}

/** Names over the lines that lead to them from the ground. */
const thingMarks = (things: readonly NamedThing[], groundMm: number): Svg[] => [
  ...things.flatMap(({ x, box, isInside }) => (isInside ? [] : [line(x, groundMm, x, box.y1 + 0.8, 0.4)])),
  ...things.flatMap(({ box }) => wordsIn(box, 0, true)),
]

/** The walk in pieces, dashed where something stands before it. */
function pathOf(up: readonly WalkPoint[], { azimuths, x, y }: Scale): Svg[] {
  const pieces: { isClear: boolean; points: [number, number][] }[] = []
  for (const point of up) {
    const place: [number, number] = [x(azimuths.get(point) ?? point.azimuthDeg), y(point.altitudeDeg)]
    const last = pieces.at(-1)
    last?.points.push(place)
    if (last?.isClear !== point.isClear) pieces.push({ isClear: point.isClear, points: [place] })
  }
  return pieces.map(({ isClear, points }) =>
    svgElement('polyline', {
      points: pointsText(points),
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': isClear ? 0.9 : 0.5,
      ...(isClear ? {} : { 'stroke-dasharray': '1.4 1.4' }),
    }),
  )
}

function momentMarks({ x, y, isClear, time }: DrawnMoment): Svg[] {
  const ink = { fill: isClear ? 'currentColor' : 'white', stroke: 'currentColor', 'stroke-width': 0.4 }
  return [svgElement('circle', { cx: x, cy: y, r: DOT_MM, ...ink }), ...(time ? wordsIn(time, 0, true) : [])]
}
