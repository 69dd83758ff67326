import { notFound, refuse } from '../errors.ts'
import { siteProblems } from '../tours/problems.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Stores } from './stores.ts'

/** Keeping sites. */
export function siteDesk({ sites }: Pick<Stores, 'sites'>): Desk['sites'] {
  const find: Desk['sites']['find'] = (id) => {
    const site = sites.find(id)
    if (!site) throw notFound('site')
    return site
  }

  return {
    all: sites.all,
    find,
    add(draft) {
      refuse(siteProblems(draft))
      const id = newId()
      sites.add({ ...draft, id })
      return find(id)
    },
    change(id, draft) {
      find(id)
      refuse(siteProblems(draft))
      sites.change({ ...draft, id })
      return find(id)
    },
  }
}
