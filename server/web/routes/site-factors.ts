import type { Desk } from '../../desk/desk.ts'
import type { FactorOfSite } from '../pages/night-settings.ts'
import type { FormValues } from './form-values.ts'

const FIELD = 'settings.noviceFactor'

/** The newcomer factors that the host has set, with the names of their sites. */
export const siteFactors = ({ sites, learning }: Pick<Desk, 'sites' | 'learning'>): readonly FactorOfSite[] =>
  sites.all().flatMap(({ id, name }) => {
    const inUse = learning.inUse(id)
    return inUse ? [{ ...inUse, siteId: id, site: name }] : []
  })

/** The values of a night's form, a newcomer factor left blank being that of its site where the host has set one. */
export function withSiteFactor(values: FormValues, factors: readonly FactorOfSite[]): FormValues {
  const own = factors.find(({ siteId }) => siteId === values.siteId)
  return own ? { [FIELD]: String(own.factor), ...values } : values
}
