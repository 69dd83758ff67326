import type { ObjectStore } from '../../db/objects.ts'
import { digestOf } from '../tours/digest.ts'
import { PLAIN_TELESCOPE } from '../tours/month-night.ts'
import { DEFAULT_SETTINGS } from '../tours/night.ts'
import { isPlainSite } from '../tours/plain-sites.ts'
import type { Site } from '../tours/site.ts'
import { isForTelescopes, type ShowObject } from '../tours/target.ts'
import type { Telescope } from '../tours/telescope.ts'
import type { Desk } from './desk.ts'
import type { AnswerOf, JobKinds } from './job-kinds.ts'
import type { Jobs } from './jobs.ts'
import { shelf } from './shelf.ts'

export interface ShelfNeeds {
  readonly objects: Pick<ObjectStore, 'outreach' | 'show'>
  /** What the host entered and has not taken off the list. */
  readonly own: () => readonly ShowObject[]
  readonly telescopes: Pick<Desk['telescopes'], 'all'>
  readonly learning: Pick<Desk['learning'], 'inUse'>
  readonly jobs: Pick<Jobs, 'run'>
}

interface At {
  readonly site: Site
  readonly month: string
}

type Answer = AnswerOf<'season'> & { readonly telescopes: readonly Telescope[] }

const KEPT = 24

export type MonthShelf = ReturnType<typeof monthShelf>

/** The list as it shows from a site in a month, reckoned in the worker once for each site, month, kit, public and things of the host's; the last twenty-four are kept. */
export function monthShelf({ objects, own, telescopes, learning, jobs }: ShelfNeeds) {
  const kept = shelf<Promise<Answer>>(KEPT)
  const onList = (): readonly ShowObject[] => [...objects.outreach(), ...own()]

  function asked({ site, month }: At): {
    readonly kit: readonly Telescope[]
    readonly job: JobKinds['season']['asked']
  } {
    const kit = telescopes.all().filter(({ isPutAway }) => isPutAway !== true)
    const noviceFactor =
      (isPlainSite(site) ? undefined : learning.inUse(site.id)?.factor) ?? DEFAULT_SETTINGS.noviceFactor
    const beside = objects.outreach().filter((object) => !isForTelescopes(object))
    const ask = { site, month, telescopes: kit.length > 0 ? kit : [PLAIN_TELESCOPE], noviceFactor }
    return { kit, job: { ask, extra: [...beside, ...own()], only: null } }
  }

  const keyOf = (job: JobKinds['season']['asked']): string => digestOf(JSON.stringify(job))

  async function reckoned(kit: readonly Telescope[], job: JobKinds['season']['asked']): Promise<Answer> {
    return { telescopes: kit, ...(await jobs.run<'season'>({ kind: 'season', ...job })) }
  }

  function all(at: At): Promise<Answer> {
    const { kit, job } = asked(at)
    const key = keyOf(job)
    const answer = kept.take(key, () => reckoned(kit, job))
    answer.catch(() => kept.drop(key))
    return answer
  }

  return {
    /** Every thing of the list and of the host's. */
    all,
    /** One of them, from the whole list where that is at hand, or one that is on no list: taken off it, or a pass. */
    one(at: At, object: ShowObject): Promise<Answer> {
      const { kit, job } = asked(at)
      const isListed = onList().some(({ key }) => key === object.key)
      const whole = isListed ? kept.find(keyOf(job)) : undefined
      return whole ?? reckoned(kit, { ...job, extra: [], only: object })
    },
    /** Everything that the answers speak of, most appealing first, the host's own behind. */
    objects: onList,
  }
}
