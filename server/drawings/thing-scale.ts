import { MOON_ARCMIN } from './thing-moon.ts'

export const WIDTH = 520
/** Width and height of a thing at most; less width where the Moon stands beside it. */
const THING_PX = 290
const BESIDE_MOON_PX = 250
const MOON_PX = 170
const BAR_PX = 300

export type Measure = 'moon' | 'fist' | 'arcminute' | 'ten-arcseconds' | 'arcsecond'

/** What stands beside a thing to tell its size, how long that is on paper, and the scale of both. */
export interface Scale {
  readonly measure: Measure
  readonly measureArcmin: number
  readonly pxPerArcmin: number
}

const LENGTHS: Readonly<Record<Measure, number>> = {
  fist: 600,
  moon: MOON_ARCMIN,
  arcminute: 1,
  'ten-arcseconds': 1 / 6,
  arcsecond: 1 / 60,
}
const MOST_PX: Readonly<Record<Measure, number>> = {
  fist: BAR_PX,
  moon: MOON_PX,
  arcminute: BAR_PX + 60,
  'ten-arcseconds': BAR_PX + 60,
  arcsecond: BAR_PX,
}

/** The full Moon for what is a third of it to twenty of it wide, else a bar whose length is said in words. */
function measureFor(spanArcmin: number): Measure {
  if (spanArcmin > 600) return 'fist'
  if (spanArcmin >= 10) return 'moon'
  if (spanArcmin >= 0.8) return 'arcminute'
  return spanArcmin >= 0.13 ? 'ten-arcseconds' : 'arcsecond'
}

/** The scale for a thing so wide and high; one that needs no measure fills its place. */
export function scaleFor(widthArcmin: number, heightArcmin: number, isAlone: boolean): Scale {
  const span = Math.max(widthArcmin, heightArcmin)
  const measure = measureFor(span)
  const measureArcmin = LENGTHS[measure]
  if (isAlone) return { measure, measureArcmin, pxPerArcmin: THING_PX / span }
  const widestPx = measure === 'moon' ? BESIDE_MOON_PX : THING_PX
  return {
    measure,
    measureArcmin,
    pxPerArcmin: Math.min(widestPx / widthArcmin, THING_PX / heightArcmin, MOST_PX[measure] / measureArcmin),
  }
}
