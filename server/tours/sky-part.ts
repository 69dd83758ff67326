import { wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'

/** The parts of the sky that clouds leave open or shut: eight directions and what is overhead. */
export const SKY_PARTS = ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw', 'overhead'] as const
export type SkyPart = (typeof SKY_PARTS)[number]

/** Higher than this is overhead, whatever the direction. */
const OVERHEAD_DEG = 60

const PARTS_AROUND = SKY_PARTS.length - 1

/** The part of the sky in which a place lies: within 22.5 degrees of a direction, or overhead. */
export function skyPartOf({ altitudeDeg, azimuthDeg }: Horizontal): SkyPart {
  if (altitudeDeg > OVERHEAD_DEG) return 'overhead'
  return SKY_PARTS[pointIn(azimuthDeg)] ?? 'n'
}

const pointIn = (azimuthDeg: number): number => Math.round(wrap360(azimuthDeg) / 45) % PARTS_AROUND
