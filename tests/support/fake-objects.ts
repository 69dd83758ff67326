import type { Desk } from '../../server/desk/desk.ts'
import { invalid, notFound } from '../../server/errors.ts'
import { ownObject, ownObjectProblems } from '../../server/tours/own-object.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { AN_OBJECT } from './field-data.ts'

/** One object of the list under two names, and whatever a test enters. */
export function fakeObjects(): Desk['objects'] {
  const aliases: Readonly<Record<string, string>> = { m13: 'm13', ngc6205: 'm13' }
  const own = new Map<string, ShowObject>()
  return {
    search: () => [],
    find(key) {
      const object = own.get(key)
      if (object) return { canonicalKey: key, object }
      if (!Object.hasOwn(aliases, key)) throw notFound('object')
      return { canonicalKey: 'm13', object: AN_OBJECT }
    },
    show: (key) => (key === 'm13' ? AN_OBJECT : own.get(key)),
    story: () => undefined,
    own: () => [...own.values()],
    addOwn(draft) {
      const problems = ownObjectProblems(draft)
      if (problems.length > 0) throw invalid(problems)
      const object = ownObject(draft, String(own.size + 1))
      own.set(object.key, object)
      return object
    },
    removeOwn(key) {
      if (!own.delete(key)) throw notFound('object')
    },
  }
}
