import { notFound, refuse } from '../errors.ts'
import { telescopeProblems } from '../tours/problems.ts'
import type { Telescope, TelescopeDraft } from '../tours/telescope.ts'
import { newId } from './ids.ts'
import type { Stores } from './stores.ts'

export interface TelescopeDesk {
  all(): readonly Telescope[]
  find(id: string): Telescope
  add(draft: TelescopeDraft): Telescope
  /** What is the same glass as before keeps its id, so that programmes of before can still name it. */
  change(id: string, draft: TelescopeDraft): Telescope
  /** Puts it away, so that no new night is offered it, or takes it out again. */
  putAway(id: string, isPutAway: boolean): Telescope
}

/** Keeping the kit. */
export function telescopeDesk({ telescopes }: Pick<Stores, 'telescopes'>): TelescopeDesk {
  const find: TelescopeDesk['find'] = (id) => {
    const telescope = telescopes.find(id)
    if (!telescope) throw notFound('telescope')
    return telescope
  }

  return {
    all: telescopes.all,
    find,
    add(draft) {
      refuse(telescopeProblems(draft))
      const telescope = newTelescope(draft)
      telescopes.add(telescope)
      return find(telescope.id)
    },
    change(id, draft) {
      const before = find(id)
      refuse(telescopeProblems(draft))
      telescopes.change({ ...telescopeFrom(draft, id, before), isPutAway: before.isPutAway === true })
      return find(id)
    },
    putAway(id, isPutAway) {
      telescopes.change({ ...find(id), isPutAway })
      return find(id)
    },
  }
}

type Parts = Pick<Telescope, 'tubes' | 'eyepieces' | 'factors'>
const NOTHING: Parts = { tubes: [], eyepieces: [], factors: [] }

/** Numbers that decide the power: a part that keeps its name and these is the same part, corrected. */
const POWER = { tubes: ['apertureMm', 'focalLengthMm'], eyepieces: ['focalLengthMm'], factors: ['factor'] } as const

/** A telescope that comes into the kit. */
export const newTelescope = (draft: TelescopeDraft): Telescope => telescopeFrom(draft, newId(), NOTHING)

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
