import { skylineAt } from '../tours/skyline.ts'
import type { Words } from '../words/words.ts'
import { facing } from './finder-chart-words.ts'
import type { SkyChartSubject } from './sky-chart.ts'
import type { ChartTarget } from './sky-chart-marks.ts'

/** Where tonight's targets stand at the hour of the chart. */
interface TargetsOver {
  readonly up: readonly ChartTarget[]
  /** Above the level horizon, but behind trees or roofs: drawn, and said. */
  readonly behind: readonly ChartTarget[]
  /** Left out, and said. */
  readonly below: readonly ChartTarget[]
}

export function targetsOver({ targets, site }: Pick<SkyChartSubject, 'targets' | 'site'>): TargetsOver {
  const up = targets.filter(({ altitudeDeg }) => altitudeDeg > 0)
  const isBehind = ({ altitudeDeg, azimuthDeg }: ChartTarget): boolean =>
    altitudeDeg < skylineAt(site.horizon, azimuthDeg).altitudeDeg
  return {
    up,
    behind: up.filter(isBehind),
    below: targets.filter(({ altitudeDeg }) => altitudeDeg <= 0),
  }
}

/** Sentences to stand below the chart. */
export function chartNotes(subject: SkyChartSubject, { up, behind, below }: TargetsOver, words: Words): string[] {
  const say = (code: string): string => words.say(`sky-chart.${code}`)
  const hasMoon = subject.bodies.some(({ body }) => body === 'moon')
  return [
    ...(subject.stars.length === 0 ? [] : [say('dots')]),
    ...(up.length === 0 ? [] : [say('rings')]),
    ...(hasMoon ? [say('moon-large')] : []),
    ...listed('behind', behind, words),
    ...listed('below', below, words),
    ...(subject.targets.length === 0 ? [say('no-targets')] : []),
    ...(subject.stars.length === 0 ? [say('no-stars')] : [say('hour-later')]),
  ]
}

function listed(code: 'behind' | 'below', targets: readonly ChartTarget[], words: Words): string[] {
  if (targets.length === 0) return []
  const names = targets.map(({ number, name }) =>
    words.say('sky-chart.numbered', { number: words.number(number), name }),
  )
  return [words.say(`sky-chart.${code}`, { count: targets.length, list: words.list(names) })]
}

/** What those hear who do not see the chart. */
export function chartDescription(
  subject: SkyChartSubject,
  { up }: TargetsOver,
  facingDeg: number,
  words: Words,
): string {
  const names = up.map(({ number, name, altitudeDeg, azimuthDeg }) =>
    words.say('sky-chart.where', {
      target: words.say('sky-chart.numbered', { number: words.number(number), name }),
      point: facing({ altitudeDeg, azimuthDeg }, words),
      degrees: words.number(altitudeDeg),
    }),
  )
  const hold = words.say(facingDeg === 0 ? 'sky-chart.faces-north' : 'sky-chart.faces-south')
  const seen = words.say('sky-chart.count', { count: subject.stars.length })
  return [hold, seen, ...names].join(' ')
}
