import type { WalkPoint } from '../tours/walks.ts'
import type { Words } from '../words/words.ts'
import type { Scale } from './walk-scale.ts'
import { type Box, boxAt, lineMm, overlaps, textIn, widthMm } from './word-box.ts'

/** A half hour of the walk as it is drawn: where it stands and where on the paper, with its time where there is room. */
export interface DrawnMoment {
  readonly at: Date
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly x: number
  readonly y: number
  readonly isClear: boolean
  readonly time: Box | null
}

type Place = readonly [number, number]

/** The walk on the paper, close enough that no word slips between two points. */
export function wayOf(up: readonly WalkPoint[], { azimuths, x, y }: Scale): readonly Place[] {
  const places = up.map((point): Place => [x(azimuths.get(point) ?? point.azimuthDeg), y(point.altitudeDeg)])
  return places.flatMap((place, i) => {
    const next = places[i + 1] ?? place
    const steps = Math.max(1, Math.ceil(Math.hypot(next[0] - place[0], next[1] - place[1])))
    return Array.from({ length: steps }, (_, k): Place => {
      const share = k / steps
      return [place[0] + share * (next[0] - place[0]), place[1] + share * (next[1] - place[1])]
    })
  })
}

const HALF_HOUR_MS = 1_800_000
export const DOT_MM = 1.3
const FROM_DOT_MM = 0.7

/** The half hours of the walk. The ends and full hours choose first where their times stand; one without room has none. */
export function momentsOf(up: readonly WalkPoint[], scale: Scale, zone: string, words: Words): readonly DrawnMoment[] {
  const way = wayOf(up, scale)
  const halves = up.filter(({ at }) => at.getTime() % HALF_HOUR_MS === 0)
  const dots = halves.map(
    (point): Place => [scale.x(scale.azimuths.get(point) ?? point.azimuthDeg), scale.y(point.altitudeDeg)],
  )
  const taken: Box[] = []
  const times = new Map<number, Box>()
  for (const i of inTurn(halves)) {
    const [point, dot] = [halves[i], dots[i]]
    if (!point || !dot) continue
    const box = timeBox(words.time(point.at, zone), dot, scale, taken, way, dots)
    if (!box) continue
    taken.push(box)
    times.set(i, box)
  }
  return halves.map(({ at, altitudeDeg, azimuthDeg, isClear }, i) => {
    const [x, y] = dots[i] ?? [0, 0]
    return { at, altitudeDeg, azimuthDeg, isClear, x, y, time: times.get(i) ?? null }
  })
}

function inTurn(halves: readonly WalkPoint[]): readonly number[] {
  const weight = (i: number): number => {
    if (i === 0 || i === halves.length - 1) return 0
    return (halves[i]?.at.getTime() ?? 0) % (2 * HALF_HOUR_MS) === 0 ? 1 : 2
  }
  return [...halves.keys()].sort((a, b) => weight(a) - weight(b))
}

function timeBox(
  time: string,
  [x, y]: Place,
  { paper }: Scale,
  taken: readonly Box[],
  way: readonly Place[],
  dots: readonly Place[],
): Box | null {
  const text = textIn(time, paper.widthMm, paper.sizePt)
  const [wide, high, away, aside] = [widthMm(text), lineMm(paper.sizePt), DOT_MM + FROM_DOT_MM, DOT_MM + 0.1]
  const corners: readonly Place[] = [
    [x - wide / 2, y - away - high],
    [x - wide / 2, y + away],
    [x + away, y - high / 2],
    [x - away - wide, y - high / 2],
    [x + aside, y - aside - high],
    [x - aside - wide, y - aside - high],
    [x + aside, y + aside],
    [x - aside - wide, y + aside],
  ]
  const boxes = corners
    .map(([x1, y1]) => boxAt(text, Math.min(Math.max(paper.leftMm, x1), paper.widthMm - wide), y1))
    .filter(({ y1, y2 }) => y1 >= 0 && y2 <= paper.groundMm)
    .filter((box) => taken.every((other) => !overlaps(box, other, 0.8)))
    .filter((box) => !dots.some((dot) => isIn(box, dot, DOT_MM)))
  return boxes.find((box) => !way.some((place) => isIn(box, place, 0))) ?? null
}

const isIn = ({ x1, x2, y1, y2 }: Box, [x, y]: Place, air: number): boolean =>
  x > x1 - air && x < x2 + air && y > y1 - air && y < y2 + air
