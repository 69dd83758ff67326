import { invalid, notFound } from '../errors.ts'
import { siteProblems } from '../tours/problems.ts'
import type { SiteDraft } from '../tours/site.ts'
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
      assertFine(draft)
      const id = newId()
      sites.add({ ...draft, id })
      return find(id)
    },
    change(id, draft) {
      find(id)
      assertFine(draft)
      sites.change({ ...draft, id })
      return find(id)
    },
  }
}

function assertFine(draft: SiteDraft): void {
  const problems = siteProblems(draft)
  if (problems.length > 0) throw invalid(problems)
}
