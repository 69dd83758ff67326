import { wrap180 } from '../sky/angles.ts'
import type { WalkPoint } from '../tours/object-tonight.ts'
import type { Site } from '../tours/site.ts'
import { skylineAt } from '../tours/skyline.ts'
import type { Words } from '../words/words.ts'
import { pointsText, type Svg, svgElement, svgText } from './svg.ts'

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

const WIDTH = 720
const HEIGHT = 340
const LEFT = 44
const FOOT = 34
const LEAST_WIDTH_DEG = 70
const EDGE_DEG = 14
const LEAST_TOP_DEG = 40
const HALF_HOUR_MS = 1_800_000
const LETTERS = { 'font-size': 14, fill: 'currentColor' }

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

interface Scale {
  readonly fromDeg: number
  readonly toDeg: number
  readonly topDeg: number
  /** Azimuths counted on through north, in the order of the walk. */
  readonly azimuths: ReadonlyMap<WalkPoint, number>
  readonly x: (azimuthDeg: number) => number
  readonly y: (altitudeDeg: number) => number
}

function scaleOf(up: readonly WalkPoint[]): Scale {
  const azimuths = new Map<WalkPoint, number>()
  let azimuth = up[0]?.azimuthDeg ?? 0
  for (const point of up) {
    azimuth += wrap180(point.azimuthDeg - azimuth)
    azimuths.set(point, azimuth)
  }
  const all = [...azimuths.values()]
  const [least, most] = [Math.min(...all) - EDGE_DEG, Math.max(...all) + EDGE_DEG]
  const missing = Math.max(0, LEAST_WIDTH_DEG - (most - least)) / 2
  const [fromDeg, toDeg] = [least - missing, most + missing]
  const highest = Math.max(...up.map(({ altitudeDeg, skylineDeg }) => Math.max(altitudeDeg, skylineDeg)))
  const topDeg = Math.min(90, Math.max(LEAST_TOP_DEG, Math.ceil((highest + 6) / 10) * 10))
  return {
    fromDeg,
    toDeg,
    topDeg,
    azimuths,
    x: (azimuthDeg) => LEFT + ((WIDTH - LEFT) * (azimuthDeg - fromDeg)) / (toDeg - fromDeg),
    y: (altitudeDeg) => (HEIGHT - FOOT) * (1 - Math.max(0, altitudeDeg) / topDeg),
  }
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

function skylineOf(horizon: Site['horizon'], { fromDeg, toDeg, topDeg, x, y }: Scale): Svg[] {
  const tops: [number, number][] = []
  for (let azimuth = fromDeg; azimuth <= toDeg; azimuth += 1) {
    tops.push([x(azimuth), y(Math.min(topDeg, skylineAt(horizon, azimuth).altitudeDeg))])
  }
  const ground = svgElement('polygon', {
    points: pointsText([[LEFT, y(0)], ...tops, [WIDTH, y(0)]]),
    fill: 'currentColor',
    'fill-opacity': 0.18,
    stroke: 'currentColor',
    'stroke-width': 1,
  })
  const names = horizon.flatMap(({ azimuthDeg, altitudeDeg, name }) => {
    const azimuth = azimuthDeg + 360 * Math.ceil((fromDeg - azimuthDeg) / 360)
    if (name === '' || altitudeDeg < 5 || azimuth > toDeg) return []
    const place = { x: x(azimuth), y: y(altitudeDeg / 2) + 5, 'text-anchor': 'middle', ...LETTERS }
    return [svgElement('text', place, svgText(name))]
  })
  return [ground, ...names]
}

function momentMark({ at, x, y, isClear }: DrawnMoment, words: Words, zone: string): Svg[] {
  const ink = isClear ? { fill: 'currentColor' } : { fill: 'none', stroke: 'currentColor' }
  return [
    svgElement('circle', { cx: x, cy: y, r: 5, ...ink }),
    svgElement('text', { x, y: y - 11, 'text-anchor': 'middle', ...LETTERS }, svgText(words.time(at, zone))),
  ]
}
