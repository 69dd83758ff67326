import { invalid, notFound } from '../errors.ts'
import { telescopeProblems } from '../tours/problems.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import type { Stores } from './stores.ts'

/** Keeping the kit. */
export function telescopeDesk({ telescopes }: Pick<Stores, 'telescopes'>): Desk['telescopes'] {
  const find: Desk['telescopes']['find'] = (id) => {
    const telescope = telescopes.find(id)
    if (!telescope) throw notFound('telescope')
    return telescope
  }

  return {
    all: telescopes.all,
    find,
    add(draft) {
      const problems = telescopeProblems(draft)
      if (problems.length > 0) throw invalid(problems)
      const id = newId()
      telescopes.add({
        ...draft,
        id,
        tubes: draft.tubes.map((tube) => ({ ...tube, id: newId() })),
        eyepieces: draft.eyepieces.map((eyepiece) => ({ ...eyepiece, id: newId() })),
      })
      return find(id)
    },
  }
}
