import { radians, wrap180 } from '../sky/angles.ts'
import type { Light } from './alignment-lights.ts'
import { apartDeg } from './sky-at.ts'
import { areColoursPlain } from './star-colour.ts'
import type { Remark } from './tour.ts'

/** What stands near a star and could be centred in its stead, and how to tell the two apart, the plainest sign first. */
export interface LookAlike {
  readonly key: string
  readonly name: string
  readonly kind: Light['kind']
  readonly magnitude: number
  readonly separationDeg: number
  readonly tell: readonly Remark[]
}

// Common practice, no source.
/** How much fainter than a star another light may be and still be taken for it. */
export const RIVAL_MAG = 1
const RIVAL_DEG = 10
const PLAINLY_BRIGHTER_MAG = 0.5
/** Eight ways to stand beside a star for one who faces it, counter-clockwise from the right. */
const SIDES = ['right', 'higher-right', 'higher', 'higher-left', 'left', 'lower-left', 'lower', 'lower-right'] as const

/**
 * The light within 10 degrees of a star that is likeliest to be taken for it: a star or planet at most a magnitude
 * fainter, the brightest of them, else the Moon; null when it stands alone.
 */
export function lookAlikeOf(star: Light, lights: readonly Light[]): LookAlike | null {
  const rivals = lights.filter(
    (light) =>
      light.key !== star.key &&
      light.magnitude <= star.magnitude + RIVAL_MAG &&
      apartDeg(light.direction, star.direction) <= RIVAL_DEG,
  )
  const isMoon = ({ kind }: Light) => Number(kind === 'moon')
  const [rival] = rivals.sort((a, b) => isMoon(a) - isMoon(b) || a.magnitude - b.magnitude)
  if (!rival) return null
  const { key, name, kind, magnitude } = rival
  const separationDeg = apartDeg(rival.direction, star.direction)
  return { key, name, kind, magnitude, separationDeg, tell: tellOf(star, rival) }
}

function tellOf(star: Light, rival: Light): readonly Remark[] {
  const values = { name: star.name, rival: rival.name }
  const codes = [
    ...kindCodes(rival),
    ...colourCodes(star, rival),
    sideCode(star, rival),
    ...brightnessCodes(star, rival),
  ]
  return codes.map((code) => ({ code, values }))
}

const kindCodes = ({ kind }: Light): readonly string[] => (kind === 'star' ? [] : [`align.rival-${kind}`])

const colourCodes = (star: Light, rival: Light): readonly string[] =>
  areColoursPlain(star.colour, rival.colour) ? [`align.rival-is-${rival.colour}`] : []

function sideCode(star: Light, rival: Light): string {
  const { altitudeDeg, azimuthDeg } = star.direction
  const upDeg = rival.direction.altitudeDeg - altitudeDeg
  const rightDeg = wrap180(rival.direction.azimuthDeg - azimuthDeg) * Math.cos(radians(altitudeDeg))
  const eighth = Math.round(Math.atan2(upDeg, rightDeg) / (Math.PI / 4))
  return `align.rival-${SIDES[(eighth + SIDES.length) % SIDES.length]}`
}

function brightnessCodes(star: Light, rival: Light): readonly string[] {
  if (rival.kind === 'moon') return []
  const brighterMag = star.magnitude - rival.magnitude
  if (Math.abs(brighterMag) < PLAINLY_BRIGHTER_MAG) return []
  return [brighterMag > 0 ? 'align.rival-brighter' : 'align.rival-fainter']
}
