import { clamp, radians } from './angles.ts'

const aboveGround = (seenAltitudeDeg: number): number => clamp(seenAltitudeDeg, 0, 90)

/**
 * How many zenith thicknesses of air the light has crossed, 1 to 38.75, from the SEEN altitude in degrees; below the
 * horizon the horizon's value (Pickering, DIO 12 (2002), 3).
 */
export function airmassPickering(seenAltitudeDeg: number): number {
  const high = aboveGround(seenAltitudeDeg)
  return Math.max(1, 1 / Math.sin(radians(high + 244 / (165 + 47 * high ** 1.1))))
}

/**
 * How many zenith thicknesses of air the light has crossed, 1 to 37.92, from the SEEN altitude in degrees; below the
 * horizon the horizon's value (Kasten & Young, Applied Optics 28 (1989), 4735).
 */
export function airmassKastenYoung(seenAltitudeDeg: number): number {
  const high = aboveGround(seenAltitudeDeg)
  return Math.max(1, 1 / (Math.sin(radians(high)) + 0.50572 * (high + 6.07995) ** -1.6364))
}
