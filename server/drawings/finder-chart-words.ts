import { wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { FinderStar, Hop, Hops, NoWay } from '../tours/hops.ts'
import { fistsAngle, halvesText } from '../words/directions.ts'
import type { Words } from '../words/words.ts'
import type { Drawable, FinderSubject } from './finder-chart.ts'

/** The sentences beside a finder chart: the way in words, and how to hold the chart. */
export function finderNotes(subject: Drawable, words: Words): readonly string[] {
  const { way } = subject
  if (way.kind === 'eyes') return [byEyes(subject, words)]
  return [
    startText(way, words),
    ...way.hops.map((hop) => hopText(hop, way.start, words)),
    ...(subject.heightPx === null ? [words.say('finder.clock')] : []),
    fieldsText(subject, words),
    words.say(TURNED[subject.finderView ?? 'unknown']),
  ]
}

const TURNED = {
  unknown: 'finder.turned',
  straight: 'finder.turned-straight',
  'right-angle': 'finder.turned-right-angle',
  'red-dot': 'finder.turned-red-dot',
} as const

/** Why no way leads to a target at an instant, in a sentence. */
export function noWayText({ code, ...cause }: NoWay['cause'], at: Date, zone: string, words: Words): string {
  const values = { time: words.time(at, zone) }
  return 'name' in cause && cause.name
    ? words.say('finder.no-behind', { ...values, name: cause.name })
    : words.say(`finder.no-${code}`, values)
}

function byEyes({ target }: FinderSubject, words: Words): string {
  const { direction } = target
  const values = { point: facing(direction, words), fists: inFists(direction.altitudeDeg, words) }
  return words.say(target.isPoint ? 'finder.eyes-bright' : 'finder.eyes', values)
}

/** The point of the compass in words to turn to. */
export const facing = ({ azimuthDeg }: Horizontal, words: Words): string =>
  words.say(`page.point-${2 * (Math.round(wrap360(azimuthDeg) / 45) % 8)}`)

function startText({ start, frame }: Hops, words: Words): string {
  const constellation = words.say(`constellation.${start.constellation}`)
  const rank = rankOf(start)
  const star = words.say(`finder.star-${rank}`, { name: start.name ?? '', constellation })
  return words.say('finder.start', { point: facing(frame.middle, words), star })
}

function rankOf({ name, isBrightest, isDesignated }: FinderStar): 'nameless' | 'brightest' | 'lettered' | 'named' {
  if (name === null) return 'nameless'
  if (isBrightest) return 'brightest'
  return isDesignated ? 'lettered' : 'named'
}

function hopText(hop: Hop, start: FinderStar, words: Words): string {
  const { from, toward, isByEye } = hop
  const values = {
    from: (from === start ? from.name : calledName(from)) ?? words.say('finder.there'),
    distance: degreesText(hop.distanceDeg, words),
    hour: words.number(hop.clockHour),
    long: isByEye ? inFists(hop.distanceDeg, words) : words.say(`finder.fields-${10 * hop.fields}`),
  }
  if (toward !== null) return words.say('finder.hop', { ...values, toward: starText(toward, words) })
  return words.say(isByEye ? 'finder.hop-eyes' : 'finder.hop-last', values)
}

const starText = (star: FinderStar, words: Words): string => calledName(star) ?? words.say('finder.brightest-there')

/** A name that people call out; letters and numbers of a constellation are none. */
export const calledName = ({ name, isDesignated }: FinderStar): string | null => (isDesignated ? null : name)

const degreesText = (distanceDeg: number, words: Words): string => {
  const halves = Math.max(1, Math.round(2 * distanceDeg)) / 2
  if (halves === 0.5) return words.say('finder.degree-half')
  return words.say('finder.degrees', { count: halves, degrees: halvesText(words, halves) })
}

const inFists = (angleDeg: number, words: Words): string => fistsAngle(words, Math.max(1, Math.round(angleDeg / 5)) / 2)

function fieldsText({ finderFieldDeg, mainFieldDeg }: FinderSubject, words: Words): string {
  const finder = words.say('finder.ring', { distance: degreesText(finderFieldDeg, words) })
  return mainFieldDeg === null ? finder : `${finder} ${words.say('finder.disc')}`
}
