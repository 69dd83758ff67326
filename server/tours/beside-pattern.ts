import { degrees, radians, wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { type Gate, placeCause, sunCause, type WhyNot } from './offered.ts'
import { apartDeg, sunAtStep, targetAtStep } from './sky-at.ts'
import { skylineAt } from './skyline.ts'
import type { Cause } from './tour.ts'

const RIM_POINTS = 16

/** The gate for a thing so many degrees wide to either side: it is well placed where the whole of it is. */
export function wideWhyNot(gate: Gate, targetIndex: number, radiusDeg: number): WhyNot {
  const atStep = (step: number): Cause | null =>
    sunCause(sunAtStep(gate.sky, step)) ?? wideCause(targetAtStep(gate.sky, targetIndex, step), radiusDeg, gate)
  return Object.assign(atStep, { watched: wholeSteps })
}

/** What stands before a round thing: its middle, its rim, or a corner of the skyline within it. */
export function wideCause(middle: Horizontal, radiusDeg: number, { site, mount }: Pick<Gate, 'site' | 'mount'>) {
  const atMiddle = placeCause(middle, site, mount)
  if (atMiddle !== null) return atMiddle
  for (const place of rimOf(middle, radiusDeg)) {
    const cause = placeCause(place, site, { ...mount, ceilingDeg: 90 })
    if (cause !== null) return cause
  }
  const corner = site.horizon.find((point) => apartDeg(point, middle) < radiusDeg)
  return corner === undefined
    ? null
    : { code: 'skyline' as const, name: skylineAt(site.horizon, corner.azimuthDeg).name }
}

/** Points around a place, so many degrees from it, the lowest first. */
function rimOf({ altitudeDeg, azimuthDeg }: Horizontal, radiusDeg: number): readonly Horizontal[] {
  const [high, wide] = [radians(altitudeDeg), radians(radiusDeg)]
  return Array.from({ length: RIM_POINTS }, (_, k) => {
    const turned = Math.PI + (2 * Math.PI * k) / RIM_POINTS
    const sine = Math.sin(high) * Math.cos(wide) + Math.cos(high) * Math.sin(wide) * Math.cos(turned)
    const across = Math.sin(turned) * Math.sin(wide) * Math.cos(high)
    const along = Math.cos(wide) - Math.sin(high) * sine
    return {
      altitudeDeg: degrees(Math.asin(Math.min(1, Math.max(-1, sine)))),
      azimuthDeg: wrap360(azimuthDeg + degrees(Math.atan2(across, along))),
    }
  })
}

/** Both ends, and every whole step between them. */
function wholeSteps(from: number, to: number): readonly number[] {
  const inner: number[] = []
  for (let step = Math.floor(from) + 1; step < to; step++) inner.push(step)
  return [from, ...inner, to]
}
