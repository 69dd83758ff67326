import type { WalkPoint } from '../tours/object-tonight.ts'
import type { Site } from '../tours/site.ts'
import type { Words } from '../words/words.ts'
import { skylineOf } from './skyline.ts'
import { pointsText, type Svg, svgElement, svgText } from './svg.ts'
import { HEIGHT, LEFT, LETTERS, type Scale, scaleOf, WIDTH } from './walk-scale.ts'

/** A half hour of the walk as it is drawn: where it stands and where on the paper. */
export interface DrawnMoment {
  readonly at: Date
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly x: number
  readonly y: number
  readonly isClear: boolean
}

export interface WalkDrawing {
  readonly svg: Svg
  /** Azimuths at the left and right edge in degrees (the right one may pass 360), altitude at the top. */
  readonly fromDeg: number
  readonly toDeg: number
  readonly topDeg: number
  readonly moments: readonly DrawnMoment[]
}

export interface WalkSubject {
  readonly walk: readonly WalkPoint[]
  readonly site: Pick<Site, 'horizon' | 'zone'>
  readonly name: string
}

const HALF_HOUR_MS = 1_800_000

/**
 * The walk of one object over the public hours above the trees and roofs of the site, compass points along the foot and
 * fists (10 degrees) up the side; behind something it is dashed. Null when it stays below the horizon.
 */
export function skylineWalk({ walk, site, name }: WalkSubject, words: Words): WalkDrawing | null {
  const up = walk.filter(({ altitudeDeg }) => altitudeDeg > 0)
  if (up.length === 0) return null
  const scale = scaleOf(up)
  const { fromDeg, toDeg, topDeg } = scale
  const moments = momentsOf(up, scale)
  const svg = svgElement(
    'svg',
    { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', xmlns: 'http://www.w3.org/2000/svg' },
    svgElement('title', {}, svgText(words.say('drawing.walk', { name }))),
    ...gridLines(scale, words),
    ...pathOf(up, scale),
    ...skylineOf(site.horizon, scale),
    ...moments.flatMap((moment) => momentMark(moment, words, site.zone)),
  )
  return { svg, fromDeg, toDeg, topDeg, moments }
}

function momentsOf(up: readonly WalkPoint[], { azimuths, x, y }: Scale): DrawnMoment[] {
  return up
    .filter(({ at }) => at.getTime() % HALF_HOUR_MS === 0)
    .map((point) => ({
      at: point.at,
      altitudeDeg: point.altitudeDeg,
      azimuthDeg: point.azimuthDeg,
      x: x(azimuths.get(point) ?? point.azimuthDeg),
      y: y(point.altitudeDeg),
      isClear: point.isClear,
    }))
}

const POINT_DEG = 22.5

function gridLines({ fromDeg, toDeg, topDeg, x, y }: Scale, words: Words): Svg[] {
  const fists = Array.from({ length: topDeg / 10 - 1 }, (_, k) => k + 1).flatMap((fist) => [
    svgElement('line', {
      x1: LEFT,
      x2: WIDTH,
      y1: y(fist * 10),
      y2: y(fist * 10),
      stroke: 'currentColor',
      'stroke-opacity': 0.25,
    }),
    svgElement('text', { x: LEFT - 10, y: y(fist * 10) + 5, 'text-anchor': 'end', ...LETTERS }, svgText(String(fist))),
  ])
  const step = toDeg - fromDeg > 150 ? 2 : 1
  const first = Math.ceil(fromDeg / (POINT_DEG * step)) * step
  const names: Svg[] = []
  for (let point = first; point * POINT_DEG <= toDeg; point += step) {
    const letters = words.say(`drawing.point-${((point % 16) + 16) % 16}`)
    names.push(
      svgElement(
        'text',
        { x: Math.min(x(point * POINT_DEG), WIDTH - 12), y: HEIGHT - 10, 'text-anchor': 'middle', ...LETTERS },
        svgText(letters),
      ),
    )
  }
  return [...fists, ...names]
}

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
      'stroke-width': isClear ? 3 : 1.5,
      ...(isClear ? {} : { 'stroke-dasharray': '4 5' }),
    }),
  )
}

function momentMark({ at, x, y, isClear }: DrawnMoment, words: Words, zone: string): Svg[] {
  const ink = isClear ? { fill: 'currentColor' } : { fill: 'none', stroke: 'currentColor' }
  return [
    svgElement('circle', { cx: x, cy: y, r: 5, ...ink }),
    svgElement('text', { x, y: y - 11, 'text-anchor': 'middle', ...LETTERS }, svgText(words.time(at, zone))),
  ]
}
