import type { MountKind } from './telescope.ts'

/** Seconds of one cycle at the eyepiece, change of visitor included. Seen at six events: 36 brisk to 80 with small children. */
export const CYCLE_SEC = { brisk: 36, normal: 50, slow: 80 } as const
/** No line was ever seen to move faster. */
export const CEILING_LOOKS_PER_HOUR = 100
/** By hand at high power the operator centres the thing again for every visitor; common practice, no source. */
const RECENTRE_SEC = 20
export const RECENTRE_POWER_X = 80

/** Looks an hour at one eyepiece for a cycle in seconds, never above 100. */
export const looksPerHour = (cycleSec: number): number => Math.min(CEILING_LOOKS_PER_HOUR, 3600 / cycleSec)

/** Minutes until the last of `people` in line has had a look, for a cycle in seconds. */
export const waitMin = (people: number, cycleSec: number): number => (people / looksPerHour(cycleSec)) * 60

/** The moment to close the line so that the last of `people` still has a look before `leaveAt`. */
export const closeLineAt = (leaveAt: Date, people: number, cycleSec: number): Date =>
  new Date(leaveAt.getTime() - waitMin(people, cycleSec) * 60_000)

/** Looks that one visitor gets in a stay of minutes when `people` share `telescopes` telescopes; Infinity on an empty field. */
export function looksInStay(stayMin: number, people: number, telescopes: number, cycleSec: number): number {
  if (people <= 0) return Number.POSITIVE_INFINITY
  return (telescopes * looksPerHour(cycleSec) * stayMin) / 60 / people
}

/**
 * Seconds of a cycle at one station: the night's own, longer by the share of children (80 for small children against
 * 50), and 20 more where a hand-pushed mount is used at 80x or more.
 */
export function cycleAt(cycleSec: number, childShare: number, mount: MountKind, powerX: number): number {
  const children = (CYCLE_SEC.slow - CYCLE_SEC.normal) * 0.5 * childShare
  const recentre = mount === 'altaz-hand' && powerX >= RECENTRE_POWER_X ? RECENTRE_SEC : 0
  return cycleSec + children + recentre
}
