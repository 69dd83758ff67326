import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import type { FactorInUse } from '../../server/tours/learning.ts'
import { A_SITE } from './field-data.ts'
import { A_LEARNING, NOTHING_LEARNT } from './learning-data.ts'

/** The learning of a fake desk: the site of the tests has learnt 3.1, any other nothing; `find` refuses a site that is none. */
export function fakeLearning(find: Desk['sites']['find'], now: Date): Desk['learning'] {
  const used = new Map<string, FactorInUse>()
  return {
    ofSite: async (siteId) => (find(siteId).id === A_SITE.id ? A_LEARNING : NOTHING_LEARNT),
    inUse: (siteId) => used.get(find(siteId).id),
    async use(siteId, factorRead) {
      if (factorRead !== 3.1) throw new Fault('conflict', 'fault.factor-moved')
      used.set(find(siteId).id, { factor: 3.1, low: 2.4, high: 4, marks: 23, setAt: now })
    },
    forget: (siteId) => void used.delete(find(siteId).id),
  }
}
