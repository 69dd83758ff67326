import type { WishStore } from '../../db/wishes.ts'
import { digestOf } from '../tours/digest.ts'
import type { FieldState } from '../tours/field.ts'
import type { GoodNow, Shown } from '../tours/good-now.ts'
import { newsOf } from '../tours/news.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Wish } from '../tours/wish.ts'
import { nearEvening } from './checks.ts'
import type { Desk } from './desk.ts'
import type { Jobs } from './jobs.ts'
import { keptAnswers } from './kept-answers.ts'
import type { MarkLog } from './mark-log.ts'

/** What one telescope could show at an instant in place of what it shows, and how some things stand that were asked for; needs no programme. */
export type GoodNowDesk = (
  nightId: string,
  stationId: string,
  at: Date,
  askedKeys?: readonly string[],
) => Promise<GoodNow>

interface Needs {
  readonly findNight: (id: string) => Night
  readonly field: Desk['marks']['field']
  readonly log: MarkLog
  readonly wishes: Pick<WishStore, 'all'>
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

const KEPT = 100
const MINUTE_MS = 60_000

/** What a telescope could show now: asked of the worker once a minute for each station and state of the row. */
export function goodNowDesk({ findNight, field: fieldOf, log, wishes, jobs, own: ownNow }: Needs): GoodNowDesk {
  const kept = keptAnswers<GoodNow>(KEPT)
  return async (nightId, stationId, at, askedKeys = []) => {
    const [night, own, field] = [findNight(nightId), ownNow(), fieldOf(nightId)]
    const minuteAt = new Date(Math.floor(at.getTime() / MINUTE_MS) * MINUTE_MS)
    const ask = {
      night,
      stationId,
      at: nearEvening(night, minuteAt),
      row: rowOf(field),
      nextKey: field.stations.find((station) => station.stationId === stationId)?.next?.targetKey ?? null,
      shut: newsOf(night, log.all(nightId), at).shut,
      wishes: wishes.all(nightId).filter(isBar),
      askedKeys,
    }
    return kept(digestOf(JSON.stringify([ask, own])), () => jobs.run<'good-now'>({ kind: 'good-now', own, ...ask }))
  }
}

const isBar = ({ kind }: Wish): boolean => kind === 'bar'

const rowOf = ({ stations }: FieldState): readonly Shown[] =>
  stations.flatMap(({ stationId, showing }) =>
    showing === null ? [] : [{ stationId, targetKey: showing.targetKey, aim: showing.aim }],
  )
