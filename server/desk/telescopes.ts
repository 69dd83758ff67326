import { invalid, notFound } from '../errors.ts'
import { telescopeProblems } from '../tours/problems.ts'
import type { Telescope, TelescopeDraft } from '../tours/telescope.ts'
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
      assertFine(draft)
      const id = newId()
      telescopes.add(telescopeFrom(draft, id, NOTHING))
      return find(id)
    },
    change(id, draft) {
      const before = find(id)
      assertFine(draft)
      telescopes.change(telescopeFrom(draft, id, before))
      return find(id)
    },
  }
}

function assertFine(draft: TelescopeDraft): void {
  const problems = telescopeProblems(draft)
  if (problems.length > 0) throw invalid(problems)
}

type Parts = Pick<Telescope, 'tubes' | 'eyepieces' | 'factors'>
const NOTHING: Parts = { tubes: [], eyepieces: [], factors: [] }

/** Numbers that decide the power: a part that keeps its name and these is the same part, corrected. */
const POWER = { tubes: ['apertureMm', 'focalLengthMm'], eyepieces: ['focalLengthMm'], factors: ['factor'] } as const

const telescopeFrom = (draft: TelescopeDraft, id: string, before: Parts): Telescope => ({
  ...draft,
  id,
  tubes: withIds(draft.tubes, before.tubes, POWER.tubes),
  eyepieces: withIds(draft.eyepieces, before.eyepieces, POWER.eyepieces),
  factors: withIds(draft.factors ?? [], before.factors, POWER.factors),
})

/**
 * The parts of a draft with ids: that of the part before which has the same name and power, else of one that differs in
 * its name only; a new id for any other, because a programme of before would name the wrong glass.
 */
function withIds<Part extends { readonly name: string }>(
  parts: readonly Part[],
  before: readonly (Part & { readonly id: string })[],
  power: readonly (keyof Part)[],
): (Part & { readonly id: string })[] {
  const free = new Set(before)
  const take = (fits: (kept: Part) => boolean): string | undefined => {
    const found = [...free].find(fits)
    if (found) free.delete(found)
    return found?.id
  }
  const same = (part: Part, kept: Part, keys: readonly (keyof Part)[]) => keys.every((key) => part[key] === kept[key])
  const byName = parts.map((part) => take((kept) => kept.name === part.name && same(part, kept, power)))
  const renamed = parts.map((part, i) => byName[i] ?? take((kept) => same(part, kept, numbersOf(part))))
  return parts.map((part, i) => ({ ...part, id: renamed[i] ?? newId() }))
}

function numbersOf<Part extends { readonly name: string }>(part: Part): (keyof Part)[] {
  const keys: (keyof Part)[] = []
  for (const key in part) if (key !== 'name') keys.push(key)
  return keys
}
