import { Value } from 'typebox/value'
import type { Desk } from '../../server/desk/desk.ts'
import { invalid, notFound } from '../../server/errors.ts'
import type { Night } from '../../server/tours/night.ts'
import { type Wish, WishDraft, wishOf } from '../../server/tours/wish.ts'
import { wishProblems } from '../../server/tours/wish-problems.ts'
import type { Kept } from './fake-desk.ts'

export interface KeptWishes {
  readonly wishes: Wish[]
}

/** Wishes kept in a list: it refuses by their words alone, and every one costs nothing. */
export function fakeWishes(kept: Pick<Kept, 'wishes' | 'tours'>, night: (id: string) => Night): Desk['wishes'] {
  const all = (id: string) => (night(id) ? kept.wishes : [])
  return {
    all,
    async add(id, draft) {
      const problems = wishProblems(draft, night(id), (key) => key === 'm13')
      if (problems.length > 0) throw invalid(problems)
      const wish = wishOf(Value.Parse(WishDraft, draft), `wish-${kept.wishes.length + 1}`)
      kept.wishes.push(wish)
      return wish
    },
    async act(id, _act, { stationId, startsAt }) {
      const stop = kept.tours.findLast(({ nightId }) => nightId === night(id).id)?.stops[0]
      if (stop?.stationId !== stationId || +stop.startsAt !== +startsAt) throw notFound('stop')
    },
    takeBack(id, wishId) {
      const at = all(id).findIndex((wish) => wish.id === wishId)
      if (at < 0) throw notFound('wish')
      kept.wishes.splice(at, 1)
    },
    told: async (id) => all(id).map((wish) => ({ wish, conflict: [], isAsleep: false, loss: null })),
  }
}
