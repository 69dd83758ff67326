import { instantOf } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Stop } from '../../server/tours/tour.ts'
import type { WrittenSpan, WrittenStation } from './judged-night.ts'

/** How far a built programme agrees with a written one: minutes that were written, and those of them in which the station shows one of the showpieces. */
interface Agreement {
  readonly written: number
  readonly agreed: number
  /** Each span with what was built and the share of its minutes that agree. */
  readonly spans: readonly {
    readonly station: string
    readonly span: WrittenSpan
    readonly built: string
    readonly share: number
  }[]
}

export function agreementOf(night: Night, written: readonly WrittenStation[], stops: readonly Stop[]): Agreement {
  const spans = written.flatMap(({ station, spans: own }) =>
    own.map((span) => ({ station, span, ...spanOf(night, station, span, stops) })),
  )
  const sum = (of: (span: (typeof spans)[number]) => number): number =>
    spans.reduce((total, span) => total + of(span), 0)
  return { written: sum(({ minutes }) => minutes), agreed: sum(({ minutes, share }) => minutes * share), spans }
}

function spanOf(night: Night, station: string, [from, to, showpieces]: WrittenSpan, stops: readonly Stop[]) {
  const id = night.stations.find(({ name }) => name === station)?.id
  const [fromMs, toMs] = [instantOf(night, from).getTime(), instantOf(night, to).getTime()]
  const shown = stops
    .filter((stop) => stop.stationId === id)
    .map((stop) => ({
      key: stop.targetKey,
      minutes: Math.max(0, Math.min(toMs, stop.endsAt.getTime()) - Math.max(fromMs, stop.startsAt.getTime())) / 60_000,
    }))
    .filter(({ minutes }) => minutes > 0)
  const minutes = (toMs - fromMs) / 60_000
  const agreed = shown.reduce((sum, each) => sum + (showpieces.includes(each.key) ? each.minutes : 0), 0)
  return { minutes, share: agreed / minutes, built: shown.map((each) => `${each.key} ${each.minutes}`).join(', ') }
}
