import type { ToldWish } from '../../server/desk/wishes.ts'
import { type Wish, type WishDraft, wishOf } from '../../server/tours/wish.ts'

const HERE = 'station-1'
const HOURS = { startsAt: '19:00', endsAt: '19:45' }

const DRAFTS: readonly WishDraft[] = [
  { kind: 'pin', stationId: HERE, targetKey: 'm13', aim: 'whole', ...HOURS },
  { kind: 'bar', targetKey: 'm13' },
  { kind: 'bar', targetKey: 'm13', ...HOURS },
  { kind: 'bar', stationId: HERE, targetKey: 'm13' },
  { kind: 'bar', stationId: HERE, targetKey: 'm13', ...HOURS },
  { kind: 'ask', targetKey: 'm13' },
  { kind: 'only', stationId: HERE, targetKey: 'm13' },
  { kind: 'only', stationId: HERE, things: ['planet', 'moon'] },
  { kind: 'only', stationId: HERE, things: ['galaxy'] },
]

/** A wish of every kind, in the words of which each page must be able to speak. */
export const WISHES: readonly Wish[] = DRAFTS.map((draft, i) => wishOf(draft, `wish-${i + 1}`))

const told = (wish: Wish, more: Partial<ToldWish> = {}): ToldWish => ({
  wish,
  conflict: [],
  isAsleep: false,
  loss: null,
  ...more,
})
const MORE: readonly Partial<ToldWish>[] = [
  { loss: { targetKey: 'm13', looks: 9.2 } },
  { loss: undefined },
  { isAsleep: true },
  {
    conflict: [
      { code: 'wish.pin-skyline', values: { target: 'M13', station: 'By the oak', at: '19:00', name: 'oak' } },
      { code: 'wish.would-do', values: { station: 'By the oak', from: '20:00', to: '21:00' } },
    ],
  },
]
export const TOLD_WISHES: readonly ToldWish[] = WISHES.map((wish, i) => told(wish, MORE[i]))
