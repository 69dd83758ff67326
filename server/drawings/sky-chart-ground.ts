import { degrees, wrap180, wrap360 } from '../sky/angles.ts'
import type { Words } from '../words/words.ts'
import { lineEm } from './letter-widths.ts'
import { LETTER_PX, LETTERS } from './sky-chart-letters.ts'
import { type Point, polar, RADIUS, type Skyline, type SkyPaper } from './sky-chart-paper.ts'
import { pointText } from './sky-chart-stars.ts'
import { type Svg, svgElement, svgText } from './svg.ts'

const BLADE_DEG = 2
const SHORT_BLADE = 0.55
/** Lower things than this have neither blades nor a name. */
const LEAST_DEG = 1.5

/** Trees and roofs along the rim: white, so that they hide what is behind them, with strokes that stand up like grass. */
export function ground(skyline: Skyline, { place }: SkyPaper): Svg[] {
  const pathOf = (points: readonly Point[]): string => `M${points.map(pointText).join('L')}Z`
  const level = pathOf(skyline.map((_, azimuthDeg) => place(0, azimuthDeg)))
  const top = pathOf(skyline.map(({ altitudeDeg }, azimuthDeg) => place(altitudeDeg, azimuthDeg)))
  const blades = skyline.flatMap(({ altitudeDeg }, azimuthDeg): string[] => {
    if (azimuthDeg % BLADE_DEG !== 0 || altitudeDeg < LEAST_DEG) return []
    const tipDeg = altitudeDeg * (azimuthDeg % (2 * BLADE_DEG) === 0 ? 1 : SHORT_BLADE)
    return [`M${pointText(place(0, azimuthDeg))}L${pointText(place(tipDeg, azimuthDeg))}`]
  })
  const ink = { fill: 'none', stroke: 'currentColor' }
  return [
    svgElement('path', { d: `${level}${top}`, fill: 'white', 'fill-rule': 'evenodd' }),
    ...(blades.length === 0 ? [] : [svgElement('path', { d: blades.join(''), ...ink, 'stroke-width': 1.2 })]),
    svgElement('path', { d: top, ...ink, 'stroke-width': 2, 'stroke-linejoin': 'round' }),
    svgElement('path', { d: level, ...ink, 'stroke-width': 2.5 }),
  ]
}

/** Words along the rim, upright when their edge is at the bottom. */
export interface RimName {
  readonly text: string
  /** The middle of the words. */
  readonly azimuthDeg: number
  readonly halfDeg: number
}

const NAMES_PX = RADIUS + 21
const COMPASS_PX = RADIUS + 50
const APART_DEG = 1.5

const halfDegOf = (text: string, radiusPx: number, isBold: boolean): number =>
  degrees((LETTER_PX * lineEm(text, isBold)) / 2 / radiusPx)

/** What stands along the horizon, the widest first, each where it is free. */
export function rimNames(skyline: Skyline): readonly RimName[] {
  const names: RimName[] = []
  const isFree = (azimuthDeg: number, halfDeg: number): boolean =>
    names.every((it) => Math.abs(wrap180(it.azimuthDeg - azimuthDeg)) > it.halfDeg + halfDeg + APART_DEG)
  for (const { name, fromDeg, wideDeg } of spansOf(skyline).sort((a, b) => b.wideDeg - a.wideDeg)) {
    const halfDeg = halfDegOf(name, NAMES_PX, false)
    const azimuthDeg = [0.5, 0.35, 0.65, 0.2, 0.8]
      .map((share) => wrap360(fromDeg + share * wideDeg))
      .find((middle) => isFree(middle, halfDeg))
    if (azimuthDeg !== undefined) names.push({ text: name, azimuthDeg, halfDeg })
  }
  return names
}

interface Span {
  readonly name: string
  readonly fromDeg: number
  wideDeg: number
}

/** What stands there, each once where it is named over neighbouring azimuths, through north too. */
function spansOf(skyline: Skyline): Span[] {
  const names = skyline.map(({ name, altitudeDeg }) => (altitudeDeg < LEAST_DEG ? '' : name))
  const start = Math.max(
    0,
    names.findIndex((name, azimuthDeg) => name !== names[(azimuthDeg + 359) % 360]),
  )
  const spans: Span[] = []
  for (let k = 0; k < 360; k++) {
    const [fromDeg, last] = [(start + k) % 360, spans.at(-1)]
    const name = names[fromDeg] ?? ''
    if (last?.name === name) last.wideDeg += 1
    else spans.push({ name, fromDeg, wideDeg: 1 })
  }
  return spans.filter(({ name }) => name !== '')
}

/** The eight points of the compass, which stand outside everything else. */
export const compassNames = (words: Words): readonly RimName[] =>
  Array.from({ length: 8 }, (_, k) => {
    const text = words.say(`page.point-${2 * k}`)
    return { text, azimuthDeg: 45 * k, halfDeg: halfDegOf(text, COMPASS_PX, true) }
  })

export const rimWords = (names: readonly RimName[], paper: SkyPaper, idPrefix: string): Svg[] =>
  names.flatMap((name, index) => alongRim(name, NAMES_PX, paper, `${idPrefix}-rim-${index}`, 'normal'))

export const compassWords = (names: readonly RimName[], paper: SkyPaper, idPrefix: string): Svg[] =>
  names.flatMap((name, index) => alongRim(name, COMPASS_PX, paper, `${idPrefix}-point-${index}`, 'bold'))

const ROOM = 1.3

/** Words on a piece of a circle with their feet outward. */
function alongRim(
  { text, azimuthDeg, halfDeg }: RimName,
  radiusPx: number,
  { facingDeg }: SkyPaper,
  id: string,
  weight: 'normal' | 'bold',
): Svg[] {
  const turnDeg = azimuthDeg - facingDeg
  const wideDeg = Math.min(175, ROOM * halfDeg)
  const [from, to] = [polar(radiusPx, turnDeg - wideDeg), polar(radiusPx, turnDeg + wideDeg)]
  const isLarge = wideDeg > 90 ? 1 : 0
  const d = `M${pointText(from)}A${radiusPx} ${radiusPx} 0 ${isLarge} 0 ${pointText(to)}`
  const onPath = svgElement('textPath', { href: `#${id}`, startOffset: '50%' }, svgText(text))
  return [
    svgElement('path', { id, d, fill: 'none' }),
    svgElement('text', { 'text-anchor': 'middle', 'font-weight': weight, ...LETTERS }, onPath),
  ]
}
