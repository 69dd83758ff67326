import { isDeepStrictEqual } from 'node:util'
import { Value } from 'typebox/value'
import type { WishStore } from '../../db/wishes.ts'
import { Fault, invalid, notFound, type Problem, refuse } from '../errors.ts'
import { DEFAULT_STEPS } from '../tours/build.ts'
import { digestOf } from '../tours/digest.ts'
import type { Night } from '../tours/night.ts'
import { isForTelescopes, type ShowObject } from '../tours/target.ts'
import type { Remark, Stop, Tour } from '../tours/tour.ts'
import { type Wish, WishDraft, type WishMatter, wishOf } from '../tours/wish.ts'
import { isAsleep } from '../tours/wish-clashes.ts'
import type { WishConflict } from '../tours/wish-conflicts.ts'
import type { WishCost } from '../tours/wish-cost.ts'
import { wishProblems } from '../tours/wish-problems.ts'
import { type StopAct, stopWishes } from '../tours/wish-stops.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Jobs } from './jobs.ts'
import { seedOf } from './tour-digest.ts'

/** Each wish is one more search when costs are reckoned. */
const MOST_WISHES = 24
const COSTS_KEPT = 8

/** A wish with all that is known of it now. */
export interface ToldWish {
  readonly wish: Wish
  /** Why it cannot be met, and what would resolve it; [] when it can. */
  readonly conflict: readonly Remark[]
  /** True while its station stands in the row no more. */
  readonly isAsleep: boolean
  /** What it costs, the target that loses most looks; undefined while that is being reckoned, null when nobody would notice. */
  readonly loss: WishCost['loss'] | undefined
}

/** A stop by its station and the instant at which it starts. */
export interface StopName {
  readonly stationId: string
  readonly startsAt: Date
}

/** What the host wishes of the programmes of a night; every change makes the programme of before out of date. */
export interface WishDesk {
  /** The wishes of a night, the oldest first. */
  all(nightId: string): readonly Wish[]
  /** Keeps a wish unless it contradicts another or the sky: then an invalid Fault says why, and what would resolve it. A wish that is kept already is answered as it is. */
  add(nightId: string, draft: unknown): Promise<Wish>
  /** Wishes what an act on a stop of the present programme stands for, in place of what was wished of it before. */
  act(nightId: string, act: StopAct, stop: StopName, other: StopName | null): Promise<void>
  takeBack(nightId: string, id: string): void
  /** Every wish with its conflict and, once it is reckoned, its cost: nobody waits for that. */
  told(nightId: string): Promise<readonly ToldWish[]>
}

interface Needs {
  readonly wishes: WishStore
  readonly findNight: (id: string) => Night
  readonly programme: (nightId: string) => Tour | undefined
  readonly objects: Pick<Desk['objects'], 'show'>
  /** The canonical key of any key or alias; undefined for a strange one. */
  readonly keyOf: (key: string) => string | undefined
  readonly jobs: Jobs
  /** What the host entered. */
  readonly own: () => readonly ShowObject[]
}

/** Keeping wishes, and saying what they cost. */
export function wishDesk(needs: Needs): WishDesk {
  const { wishes, findNight, programme, jobs, own } = needs
  const costOf = costShelf(needs)
  const put = putter(needs)
  const all = (nightId: string) => wishes.all(findNight(nightId).id)

  return {
    all,
    async add(nightId, draft) {
      const night = findNight(nightId)
      const wish = wishOf(fine(needs, night, draft), newId())
      const kept = wishes.all(night.id).find((other) => isSameMatter(other, wish))
      if (kept) return kept
      await put(night, [wish], [])
      return wish
    },
    async act(nightId, act, name, otherName) {
      const night = findNight(nightId)
      const tour = programme(night.id)
      const stop = stopOf(tour, name)
      const meant = stopWishes(night, all(nightId), act, stop, otherName && stopOf(tour, otherName))
      if (meant === null) throw invalid([{ field: 'act', key: `wish.cannot-${act}` }])
      const stay = all(nightId).filter((wish) => !meant.replaced.includes(wish))
      const fresh = meant.wishes.filter((matter) => !stay.some((other) => isSameMatter(other, matter)))
      await put(
        night,
        fresh.map((matter) => ({ ...matter, id: newId() })),
        meant.replaced,
      )
    },
    takeBack(nightId, id) {
      if (!wishes.takeBack(findNight(nightId).id, id)) throw notFound('wish')
    },
    async told(nightId) {
      const night = findNight(nightId)
      const list = wishes.all(night.id)
      if (list.length === 0) return []
      const conflicts = await jobs.run<'wish-conflicts'>({ kind: 'wish-conflicts', night, own: own(), wishes: list })
      const met = list.filter((wish) => !conflicts.some(({ wishId }) => wishId === wish.id))
      const costs = met.length === 0 ? [] : costOf(night, met)
      return list.map((wish) => ({
        wish,
        conflict: conflicts.find(({ wishId }) => wishId === wish.id)?.remarks ?? [],
        isAsleep: isAsleep({ night }, wish),
        loss: costs?.find(({ wishId }) => wishId === wish.id)?.loss,
      }))
    },
  }
}

/** Keeps new wishes in the place of some when all that then are wished can be met. */
function putter({ wishes, jobs, own }: Needs) {
  return async (night: Night, fresh: readonly Wish[], replaced: readonly Wish[]): Promise<void> => {
    const gone = new Set(replaced.map(({ id }) => id))
    const stay = wishes.all(night.id).filter(({ id }) => !gone.has(id))
    if (stay.length + fresh.length > MOST_WISHES) {
      throw invalid([{ field: 'kind', key: 'wish.full', values: { maximum: MOST_WISHES } }])
    }
    const asked = { kind: 'wish-conflicts', night, own: own(), wishes: [...stay, ...fresh] } as const
    refuse(problemsOf(await jobs.run<'wish-conflicts'>(asked), fresh))
    wishes.change(night.id, [...gone], fresh)
  }
}

/** The costs of the last lists of wishes: the first who asks has them reckoned, and is told nothing yet. */
function costShelf({ jobs, programme, own: ownNow }: Needs) {
  const kept = new Map<string, readonly WishCost[] | undefined>()
  return (night: Night, wishes: readonly Wish[]): readonly WishCost[] | undefined => {
    const tour = programme(night.id)
    const [own, seed, steps] = [ownNow(), tour?.seed ?? seedOf(night), tour?.steps ?? DEFAULT_STEPS]
    const key = digestOf(JSON.stringify([night, own, wishes, seed, steps]))
    if (kept.has(key)) return kept.get(key)
    kept.set(key, undefined)
    for (const oldest of kept.keys()) if (kept.size > COSTS_KEPT) kept.delete(oldest)
    jobs
      .run<'wish-costs'>({ kind: 'wish-costs', night, own, wishes, seed, steps })
      .then((costs) => kept.set(key, costs))
      .catch((error: unknown) => {
        kept.delete(key)
        if (!(error instanceof Fault)) console.error('The cost of wishes could not be reckoned:', error)
      })
    return undefined
  }
}

/** The draft, with the canonical key of its target; a Fault that names its fields when it is no wish. */
function fine({ objects, keyOf }: Needs, night: Night, draft: unknown): WishDraft {
  const isKnown = (key: string): boolean => {
    const object = objects.show(keyOf(key) ?? key)
    return object !== undefined && isForTelescopes(object)
  }
  const problems = wishProblems(draft, night, isKnown)
  if (problems.length > 0 || !Value.Check(WishDraft, draft)) throw invalid(problems)
  return { ...draft, targetKey: draft.targetKey == null ? null : (keyOf(draft.targetKey) ?? draft.targetKey) }
}

function stopOf(tour: Tour | undefined, { stationId, startsAt }: StopName): Stop {
  const found = tour?.stops.find((stop) => stop.stationId === stationId && +stop.startsAt === +startsAt)
  if (!found) throw notFound('stop')
  return found
}

function isSameMatter(a: Wish | WishMatter, b: Wish | WishMatter): boolean {
  return isDeepStrictEqual({ ...a, id: '' }, { ...b, id: '' })
}

/** What new wishes contradict, and what they leave no room for. */
const problemsOf = (conflicts: readonly WishConflict[], fresh: readonly Wish[]): Problem[] =>
  conflicts.flatMap(({ wishId, remarks }) =>
    remarks
      .filter(({ code }) => code === NO_ROOM || fresh.some(({ id }) => id === wishId))
      .map(({ code, values = {} }) => ({ field: 'targetKey', key: code, values })),
  )

const NO_ROOM = 'wish.no-room'
