import type { Limit } from './limit.ts'
import { ramp } from './ramp.ts'

/** What one thing gives in one view under one limit. */
export interface Impression {
  /** Magnitudes by which its light stands above what half of the newcomers see. */
  readonly lightMag: number
  /** The same for what no light helps (two stars too close, a field too small), 99 where nothing of the kind limits. */
  readonly otherMag: number
  /** How it shows to those who see it, 0 to 1: there 0.3, shape 0.6, detail 0.85, a gasp 1. */
  readonly view: number
}

export type Look = (limit: Limit) => Impression

/** Nothing but light limits. */
export const UNLIMITED_MAG = 99

/**
 * The view from its four parts, each 0 to 1: there 0.3, shape 0.6, detail 0.85, a gasp 1. Each part counts only as far
 * as the one before it is reached; a thing at the edge of sight is less than there.
 */
export function viewOf(lightMag: number, shape: number, detail: number, gasp: number): number {
  const there = 0.15 + 0.15 * ramp(lightMag, -1, 0.3)
  return there + shape * (0.3 + detail * (0.25 + gasp * 0.15))
}
