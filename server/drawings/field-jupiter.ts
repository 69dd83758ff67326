import { degrees } from '../sky/angles.ts'
import { type JupiterMoon, jupiterMoons } from '../sky/jupiter.ts'
import type { Words } from '../words/words.ts'
import { type Globe, onGlobe } from './field-globe.ts'
import { fieldText, OVER_DOTS } from './field-letters.ts'
import {
  AS_A_DOT,
  type DrawnMark,
  drawnField,
  type FieldDrawn,
  type FieldPaper,
  type Frame,
  fieldsTogether,
  isInCircle,
  type Matter,
  type Said,
} from './field-paper.ts'
import { drawJupiter, jupiterAt, PLANET_INSET } from './field-planets.ts'
import { clockwiseOn } from './thing-paper.ts'
import { starDot } from './thing-stars.ts'

/** Jupiter with the four bright moons in their places at an instant; those before, behind or out of the field are told in words. */
export function jupiterMatter(at: Date, { turn }: Frame, trueFieldDeg: number, words: Words): Matter {
  const [globe, moons] = [jupiterAt(at), jupiterMoons(at)]
  const beside = moons.filter((moon) => !moon.isHidden && !moon.isInFront)
  const along = beside.map(({ xRadii, yRadii }) => ({
    far: globe.radiusArcmin * Math.hypot(xRadii, yRadii),
    angleDeg: clockwiseOn(turn, globe.axisAngleDeg - degrees(Math.atan2(xRadii, yRadii))),
  }))
  const half = (side: (angleDeg: number) => number): number =>
    Math.max(globe.radiusArcmin, ...along.map(({ far, angleDeg }) => far * Math.abs(side((angleDeg * Math.PI) / 180))))
  return {
    draw: (paper) => fieldsTogether(drawJupiter(paper, globe), drawMoons(paper, globe, beside, words)),
    reach: [half(Math.sin), half(Math.cos)],
    offArcmin: [0, 0],
    leastArcmin: 2 * globe.radiusArcmin,
    tooSmall: AS_A_DOT,
    inset: { ...PLANET_INSET, signsPx: 24 },
    notes: [{ code: 'field-drawing.note-belts' }, ...moonNotes(moons, globe, trueFieldDeg, words)],
  }
}

const nameOf = (name: JupiterMoon['name'], words: Words): string => words.say(`field-drawing.moon-${name}`)
const signOf = (name: JupiterMoon['name'], words: Words): string => nameOf(name, words).slice(0, 1)

function moonNotes(moons: readonly JupiterMoon[], globe: Globe, trueFieldDeg: number, words: Words): Said[] {
  const [hidden, before, shadows, outside] = [
    moons.filter(({ isHidden }) => isHidden),
    moons.filter(({ isInFront, isHidden }) => isInFront && !isHidden),
    moons.filter(({ castsShadow }) => castsShadow),
    moons.filter((moon) => Math.hypot(moon.xRadii, moon.yRadii) * globe.radiusArcmin > 30 * trueFieldDeg),
  ]
  const told: readonly (readonly [string, readonly JupiterMoon[]])[] = [
    ['field-drawing.note-hidden', hidden],
    ['field-drawing.note-before', before],
    ['field-drawing.note-shadow', shadows],
    ['field-drawing.note-outside', outside],
  ]
  return told.flatMap(([code, those]) => {
    const names = words.list(those.map(({ name }) => nameOf(name, words)))
    return those.length === 0 ? [] : [{ code, values: { names, count: those.length } }]
  })
}

const [MOON_PX, MOON_SMALL_PX] = [3, 1.6]

function drawMoons(paper: FieldPaper, globe: Globe, moons: readonly JupiterMoon[], words: Words): FieldDrawn {
  const marks = moons
    .map(({ name, xRadii, yRadii }): DrawnMark => {
      const [x, y] = onGlobe(paper, globe, globe.axisAngleDeg, yRadii, -xRadii)
      return { name: nameOf(name, words), sign: signOf(name, words), x, y }
    })
    .filter(({ x, y }) => isInCircle(paper, x, y, MOON_SMALL_PX))
  const radiusPx = paper.hasSigns ? MOON_PX : MOON_SMALL_PX
  const dots = marks.map(({ x, y }) => starDot({ x, y, radiusPx, magnitude: 5 }))
  return drawnField([...dots, ...(paper.hasSigns ? signs(marks, globe.radiusArcmin * paper.pxPerArcmin, paper) : [])], {
    marks,
  })
}

const [SIGN_WIDE_PX, SIGN_HIGH_PX, BASELINE_PX] = [15, 18, 8]
/** Where the middle of a letter may stand beside its dot, and farther off: above and below first, or right and left of a row that stands upright. */
function placesBeside(marks: readonly DrawnMark[]): readonly (readonly [number, number])[] {
  const span = (values: readonly number[]): number => Math.max(...values) - Math.min(...values)
  const isUpright = span(marks.map(({ y }) => y)) > span(marks.map(({ x }) => x))
  return [1, 1.8, 2.6].flatMap((far): (readonly [number, number])[] => {
    const [above, below, right, left] = [
      [0, -16 * far],
      [0, 16 * far],
      [15 * far, 0],
      [-15 * far, 0],
    ] as const
    return isUpright ? [right, left, above, below] : [above, below, right, left]
  })
}

/** A letter at every moon, none over another, over a moon or over the disc. */
function signs(marks: readonly DrawnMark[], discPx: number, { x: discX, y: discY }: FieldPaper) {
  const taken: { readonly x: number; readonly y: number; readonly wide: number; readonly high: number }[] = [
    { x: discX, y: discY, wide: 2 * discPx, high: 2 * discPx },
    ...marks.map(({ x, y }) => ({ x, y, wide: 8, high: 8 })),
  ]
  const places = placesBeside(marks)
  return marks.map(({ x, y, sign }) => {
    const isFree = ([dx, dy]: readonly [number, number]): boolean =>
      taken.every(
        (it) =>
          Math.abs(it.x - x - dx) >= (it.wide + SIGN_WIDE_PX) / 2 ||
          Math.abs(it.y - y - dy) >= (it.high + SIGN_HIGH_PX) / 2,
      )
    const [dx, dy] = places.find(isFree) ?? [0, 0]
    taken.push({ x: x + dx, y: y + dy, wide: SIGN_WIDE_PX, high: SIGN_HIGH_PX })
    return fieldText(x + dx, y + dy + BASELINE_PX, sign, 'middle', OVER_DOTS)
  })
}
