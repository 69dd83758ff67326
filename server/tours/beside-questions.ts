import {
  type BesideHalf,
  type BesideLine,
  commonSpan,
  type ElsewhereLine,
  type HalfHourSpan,
  type PromptLine,
} from './beside-lines.ts'
import { mainStopsIn, partIn, stopsIn } from './beside-shown.ts'
import type { Night } from './night.ts'
import type { ObjectKind, ShowObject } from './target.ts'
import type { Stop } from './tour.ts'

interface QuestionsInput {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly stops: readonly Stop[]
  /** What the other stations that are no telescope show in all half hours. */
  readonly others: readonly BesideHalf[]
  /** Codes of the prompts given before. */
  readonly before: readonly string[]
}

/** What every other station shows in a half hour, in the order of the row: a telescope from when to when, of the rest the first thing. */
export function elsewhereIn(input: QuestionsInput, half: HalfHourSpan): readonly ElsewhereLine[] {
  const place = ({ stationId }: ElsewhereLine) => input.night.stations.findIndex(({ id }) => id === stationId)
  return [...atTelescopes(input, half), ...atOthers(input, half)].sort((a, b) => place(a) - place(b))
}

const atTelescopes = ({ stops }: QuestionsInput, half: HalfHourSpan): ElsewhereLine[] =>
  stopsIn(stops, half)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
    .map((stop) => {
      const { stationId, targetKey, aim } = stop
      return { what: 'elsewhere', stationId, targetKey, aim, ...partIn(stop, half) }
    })

const atOthers = ({ others }: QuestionsInput, half: HalfHourSpan): ElsewhereLine[] =>
  others
    .filter(({ fromAt }) => fromAt.getTime() === half.fromAt.getTime())
    .flatMap(({ stationId, lines }) => lines.flatMap((line) => ofLine(stationId, line, half)).slice(0, 1))

function ofLine(stationId: string, line: BesideLine, half: HalfHourSpan): ElsewhereLine[] {
  if (line.what === 'picture')
    return [{ what: 'elsewhere', stationId, targetKey: line.targetKey, aim: line.aim, ...half }]
  if (line.what !== 'sight') return []
  const span = commonSpan({ fromAt: line.fromAt, toAt: line.leave?.at ?? half.toAt }, half)
  return [{ what: 'elsewhere', stationId, targetKey: line.targetKey, aim: 'whole', ...span }]
}

const BY_KIND: Readonly<Partial<Record<ObjectKind, string>>> = {
  moon: 'beside.ask-moon',
  planet: 'beside.ask-planet',
  star: 'beside.ask-star',
  'red-star': 'beside.ask-star',
  double: 'beside.ask-star',
  'open-cluster': 'beside.ask-cluster',
  globular: 'beside.ask-cluster',
  galaxy: 'beside.ask-glow',
  planetary: 'beside.ask-glow',
  nebula: 'beside.ask-glow',
  remnant: 'beside.ask-glow',
  comet: 'beside.ask-glow',
}
const ALWAYS = ['beside.ask-power', 'beside.ask-picture', 'beside.ask-far', 'beside.ask-cost'] as const

/** The question to be ready for: about what is shown in the half hour where it was not given before, else one that always comes. */
export function promptIn(input: QuestionsInput, half: HalfHourSpan): PromptLine {
  const fitting = [...new Set([...promptsFor(input, half), ...ALWAYS])]
  const timesGiven = (code: string) => input.before.filter((it) => it === code).length
  const code = fitting.reduce((best, it) => (timesGiven(it) < timesGiven(best) ? it : best))
  return { what: 'prompt', remark: { code } }
}

function promptsFor({ night, objects, stops }: QuestionsInput, half: HalfHourSpan): readonly string[] {
  return mainStopsIn(stops, half).flatMap(({ stationId, targetKey, setups }) => {
    const kind = objects.find(({ key }) => key === targetKey)?.kind
    const byKind = kind && BY_KIND[kind]
    const telescope = night.stations.find(({ id }) => id === stationId)?.telescope
    const tube = telescope?.tubes.find(({ id }) => id === setups[0]?.tubeId)
    const isTurned = tube !== undefined && tube.design === 'reflector' && !tube.hasDiagonal
    return [...(byKind ? [byKind] : []), ...(isTurned ? ['beside.ask-turned'] : [])]
  })
}
