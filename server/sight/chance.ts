import { normalShare } from './normal.ts'

/*
 * Blackwell's observers went from 50 % to 90 % over a factor 1.62 of light, 0.41 magnitudes as one deviation; visitors
 * differ among themselves by 0.6 (a choice: sources run from 0.3 to the 1.2 of Kyba et al., Sci. Rep. 3 (2013), 1835,
 * which holds errors of chart and sky too).
 */
const DEVIATION_MAG = Math.hypot(0.41, 0.6)

export type ChanceWord = 'anyone' | 'most' | 'with-help' | 'few' | 'not-tonight'

/** How far the public is dazzled: the share that has just looked at the Moon, 0 to 1, and the magnitudes they have lost. */
export interface Dazzle {
  readonly share: number
  readonly lostMag: number
}

/** The chance, 0 to 1, that a newcomer sees what stands so many magnitudes above what half of them see. */
export const chanceAt = (marginMag: number): number => normalShare(marginMag / DEVIATION_MAG)

/** The chance, 0 to 1, from the margin of light and the margin of everything else; only the first suffers from dazzle. */
export function chanceOf(lightMag: number, otherMag: number, { share, lostMag }: Dazzle): number {
  const rested = chanceAt(Math.min(lightMag, otherMag))
  if (share === 0 || lostMag === 0) return rested
  return (1 - share) * rested + share * chanceAt(Math.min(lightMag - lostMag, otherMag))
}

/** The chance in a word: anyone from 0.95, most from 0.8, with help from 0.5, few from 0.2, else not tonight. */
export function chanceWord(chance: number): ChanceWord {
  if (chance >= 0.95) return 'anyone'
  if (chance >= 0.8) return 'most'
  if (chance >= 0.5) return 'with-help'
  return chance >= 0.2 ? 'few' : 'not-tonight'
}
