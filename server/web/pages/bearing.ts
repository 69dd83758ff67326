import { POINT_DEG, pointAt } from '../../tours/pointing.ts'
import { pointNamed } from '../../words/directions.ts'
import type { Words } from '../../words/words.ts'
import { pointText } from './say.ts'

/** A direction as people say it: one of sixteen compass points where the azimuth in degrees is one, else its degrees. */
export const bearingText = (words: Words, azimuthDeg: number): string =>
  azimuthDeg % POINT_DEG === 0
    ? pointText(words, azimuthDeg / POINT_DEG)
    : words.say('page.bearing-degrees', { degrees: azimuthDeg })

/** The compass point nearest to an azimuth in degrees, in words. */
export const nearPointText = (words: Words, azimuthDeg: number): string => pointText(words, pointAt(azimuthDeg))

/** The azimuth in degrees, 0 to under 360, of a compass point (`north-west`, `NW`) or of degrees as typed; NaN for anything else. */
export function bearingDeg(words: Words, text: string): number {
  const point = pointNamed(words, text)
  if (point !== undefined) return point * POINT_DEG
  const [, number] = /^(\d{1,3}(?:[.,]\d+)?)\s*°?$/.exec(text.trim()) ?? []
  const degrees = number === undefined ? Number.NaN : Number(number.replace(',', '.'))
  return degrees <= 360 ? degrees % 360 : Number.NaN
}
