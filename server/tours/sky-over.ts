import { limitOf } from '../sight/limit.ts'
import { skyCd } from '../sight/sky-brightness.ts'
import { bodyLook } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { StarPlace } from '../sky/star.ts'
import { bareEyes } from './beside-aids.ts'
import { seenFrom } from './hops-frame.ts'
import { lightGeometry } from './light-geometry.ts'
import type { Night } from './night.ts'
import { placeOf } from './site.ts'

/** A star as a chart knows it; `hip` tells it from others. */
export interface StarOver extends Horizontal {
  readonly hip: number
  readonly magnitude: number
}

/** From one star of a constellation's figure to the next; either may be below the horizon. */
export interface FigureStroke {
  readonly constellation: string
  readonly from: StarOver
  readonly to: StarOver
}

/** What newcomers see with bare eyes at an instant. */
export interface SkyOver {
  /** The faintest V seen high up; below any star's while the Sun is up. */
  readonly limitV: number
  /** Stars above the level horizon that are bright enough where they stand. */
  readonly stars: readonly StarOver[]
  readonly strokes: readonly FigureStroke[]
}

/** Stars and figures from which a sky is made. */
export interface SkyStars {
  readonly stars: readonly (StarPlace & { readonly hip: number; readonly magnitude: number })[]
  readonly lines: readonly { readonly constellation: string; readonly hips: readonly number[] }[]
}

/** Where the sky is asked for its darkness: high, but not overhead. */
const HIGH_DEG = 60
/** A figure is drawn over a star so much fainter than the faintest seen (a choice). */
const FIGURE_MAG = 0.8

/** The stars and figures over a site at an instant, as bare eyes of newcomers have them in that night's air and light. */
export function skyOver(night: Night, at: Date, { stars: known, lines }: SkyStars): SkyOver {
  const faintest = faintestSeen(night, at)
  const directions = seenFrom(known, at, placeOf(night.site))
  const all = known.map(({ hip, magnitude }, index): StarOver => {
    const { altitudeDeg, azimuthDeg } = directions[index] ?? { altitudeDeg: -90, azimuthDeg: 0 }
    return { hip, magnitude, altitudeDeg, azimuthDeg }
  })
  const limitV = Math.max(...[0, 90, 180, 270].map((azimuthDeg) => faintest({ altitudeDeg: HIGH_DEG, azimuthDeg })))
  const stars = all.filter(
    (star) => star.altitudeDeg > 0 && star.magnitude <= limitV && star.magnitude <= faintest(star),
  )
  return { limitV, stars, strokes: strokesOf(all, new Set(stars), limitV, lines) }
}

/** The lines between stars that are seen, and those that lead from one to another by way of a single star a little too faint. */
function strokesOf(
  all: readonly StarOver[],
  seen: ReadonlySet<StarOver>,
  limitV: number,
  lines: SkyStars['lines'],
): readonly FigureStroke[] {
  const byHip = new Map(all.map((star) => [star.hip, star]))
  const strokes = lines.flatMap(({ constellation, hips }) =>
    hips.slice(1).flatMap((hip, index): FigureStroke[] => {
      const [from, to] = [byHip.get(hips[index] ?? 0), byHip.get(hip)]
      return from && to ? [{ constellation, from, to }] : []
    }),
  )
  const seenBeside = new Map<StarOver, number>()
  const count = (star: StarOver, other: StarOver): void => {
    if (seen.has(other)) seenBeside.set(star, (seenBeside.get(star) ?? 0) + 1)
  }
  for (const { from, to } of strokes) {
    count(from, to)
    count(to, from)
  }
  const isDrawn = (star: StarOver): boolean =>
    seen.has(star) || (star.magnitude <= limitV + FIGURE_MAG && (seenBeside.get(star) ?? 0) > 1)
  return strokes.filter(({ from, to }) => (seen.has(from) || seen.has(to)) && isDrawn(from) && isDrawn(to))
}

/** The faintest V that half of the newcomers see in a direction. */
function faintestSeen(night: Night, at: Date): (direction: Horizontal) => number {
  const { view, conditions } = bareEyes(night)
  const limit = limitOf(view, conditions)
  const place = placeOf(night.site)
  const [sun, moon] = [bodyLook('sun', at, place), bodyLook('moon', at, place)]
  return (direction) => limit(skyCd(lightGeometry(direction, sun, moon), conditions), direction.altitudeDeg).starMag
}
