import type { EveningAnswer } from '../../desk/desk.ts'
import type { Words } from '../../words/words.ts'

/** Shares of the lit face below which the phase has each name, in order of growth. */
const PHASES = [
  [0.02, 'new'],
  [0.4, 'crescent'],
  [0.6, 'quarter'],
  [0.97, 'gibbous'],
] as const

/** The phase of the Moon as a word key: `page.moon-first-quarter`. */
export function phaseKey(litFraction: number, isWaxing: boolean): string {
  const name = PHASES.find(([below]) => litFraction < below)?.[1] ?? 'full'
  if (name === 'new' || name === 'full') return `page.moon-${name}`
  if (name === 'quarter') return `page.moon-${isWaxing ? 'first' : 'last'}-quarter`
  return `page.moon-${isWaxing ? 'waxing' : 'waning'}-${name}`
}

/** The Moon of the evening in one sentence: phase, share lit, and when it rises and sets. */
export function moonText(words: Words, evening: EveningAnswer): string {
  const { moon, isMoonWaxing, moonriseAt, moonsetAt, zone } = evening
  const time = (at: Date) => words.time(at, zone)
  const phase = words.say(phaseKey(moon.litFraction, isMoonWaxing))
  const percent = Math.round(moon.litFraction * 100)
  const path = [
    ...(moonriseAt ? [{ at: moonriseAt, text: words.say('page.moon-rises', { time: time(moonriseAt) }) }] : []),
    ...(moonsetAt ? [{ at: moonsetAt, text: words.say('page.moon-sets', { time: time(moonsetAt) }) }] : []),
  ].sort((a, b) => a.at.getTime() - b.at.getTime())
  if (path.length === 0) return words.say(moon.altitudeDeg > 0 ? 'page.moon-up' : 'page.moon-down', { phase, percent })
  return words.say('page.moon-line', { phase, percent, path: words.list(path.map(({ text }) => text)) })
}
