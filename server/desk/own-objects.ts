import { Value } from 'typebox/value'
import { foldAlias } from '../../db/catalogue/fold.ts'
import type { OwnObjectStore } from '../../db/own-objects.ts'
import type { Clock } from '../clock.ts'
import { invalid, notFound, type Problem } from '../errors.ts'
import { OwnObjectDraft, type OwnThing, ownKey, tidied } from '../tours/own-object.ts'
import { ownObjectProblems } from '../tours/own-problems.ts'
import { newId } from './ids.ts'
import { inside } from './mark-problems.ts'

/** Each of them is reckoned for every telescope of every night. */
const MOST_LISTED = 1000

/** The key of whatever is called so, in the catalogue or among the host's own; undefined when nothing is. */
type KeyOf = (name: string) => string | undefined

/** What the host entered; what was taken off the list is kept, since programmes and marks of before name it. */
export interface OwnDesk {
  /** All that was ever entered, on the list or taken off it. */
  all(): readonly OwnThing[]
  find(key: string): OwnThing
  add(draft: unknown): OwnThing
  /** What is wrong with drafts that are to be added together, each field behind the place of its draft: `2.name`. */
  problems(drafts: readonly unknown[]): readonly Problem[]
  /** Adds all of them or, when anything is wrong, none. */
  addAll(drafts: readonly unknown[]): readonly OwnThing[]
  /** Changes what is known of a thing under its key: programmes built with it are out of date. */
  change(key: string, draft: unknown): OwnThing
  /** Takes one off the list: programmes built with it are out of date, and still say what it was. */
  retire(key: string): void
  /** Puts one back on the list; a Fault that names the field when its name is taken by now. */
  bringBack(key: string): OwnThing
}

interface Needs {
  readonly ownObjects: OwnObjectStore
  readonly clock: Clock
  readonly keyOf: KeyOf
}

/** Keeping what the host entered. */
export function ownDesk(needs: Needs): OwnDesk {
  const { ownObjects, clock } = needs
  const find = (key: string): OwnThing => {
    const thing = ownObjects.find(key)
    if (!thing) throw notFound('object')
    return thing
  }
  const keep = (draft: OwnObjectDraft): [string, OwnObjectDraft] => [ownKey(newId()), tidied(draft)]
  const { problems, fine, room } = judge(needs)

  return {
    all: ownObjects.all,
    find,
    add(draft) {
      const kept = keep(fine(draft, null, room(1)))
      ownObjects.add(new Map([kept]))
      return find(kept[0])
    },
    problems,
    addAll(drafts) {
      const wrong = problems(drafts)
      const kept = drafts.map((draft) => keep(sure(draft, wrong)))
      ownObjects.add(new Map(kept))
      return kept.map(([key]) => find(key))
    },
    change(key, draft) {
      const { draft: before } = find(key)
      const after = tidied(fine(draft, key, []))
      if (!Value.Equal(before, after)) ownObjects.change(key, after, clock.now())
      return find(key)
    },
    retire(key) {
      if (!ownObjects.retire(key)) throw notFound('object')
    },
    bringBack(key) {
      const { draft, isListed } = find(key)
      if (!isListed) ownObjects.bringBack(key, fine(draft, key, room(1)).name)
      return find(key)
    },
  }
}

/** Says what is wrong with drafts beside all that is called something already. */
function judge({ ownObjects, keyOf }: Needs) {
  const room = (more: number): Problem[] =>
    ownObjects.listed().length + more > MOST_LISTED
      ? [{ field: 'name', key: 'problem.own-full', values: { maximum: MOST_LISTED } }]
      : []
  return {
    room,
    /** The draft, fine to be kept under a key; a Fault that names its fields otherwise. */
    fine: (draft: unknown, key: string | null, others: readonly Problem[]): OwnObjectDraft =>
      sure(draft, [...ownProblems(draft, (name) => unlessOf(key, keyOf(name))), ...others]),
    problems: (drafts: readonly unknown[]): readonly Problem[] => [
      ...drafts.flatMap((draft, i) => ownProblems(draft, keyOf).map((problem) => inside(String(i), problem))),
      ...twiceProblems(drafts),
      ...room(drafts.length).map((problem) => inside('0', problem)),
    ],
  }
}

/** The draft when nothing is wrong; otherwise a Fault that names the fields. */
function sure(draft: unknown, problems: readonly Problem[]): OwnObjectDraft {
  if (problems.length > 0 || !Value.Check(OwnObjectDraft, draft)) throw invalid(problems)
  return draft
}

const unlessOf = (key: string | null, found: string | undefined): string | undefined =>
  found === key ? undefined : found

/** What is wrong with one draft by itself, its name among all others included. */
function ownProblems(draft: unknown, keyOf: KeyOf): Problem[] {
  const problems = ownObjectProblems(draft)
  const name = nameOf(draft)
  if (name === '' || problems.some(({ field }) => field === 'name')) return problems
  // A search compares letters and digits alone.
  if (foldAlias(name) === '') return [{ field: 'name', key: 'problem.no-letter' }, ...problems]
  if (keyOf(name) === undefined) return problems
  return [{ field: 'name', key: 'problem.name-taken', values: { name } }, ...problems]
}

/** A problem for each draft that is called like one before it. */
function twiceProblems(drafts: readonly unknown[]): Problem[] {
  const seen = new Set<string>()
  return drafts.flatMap((draft, i) => {
    const name = nameOf(draft)
    const folded = foldAlias(name)
    const isTwice = seen.has(folded)
    if (folded !== '') seen.add(folded)
    return isTwice ? [{ field: `${i}.name`, key: 'problem.name-twice', values: { name } }] : []
  })
}

const nameOf = (draft: unknown): string =>
  typeof draft === 'object' && draft !== null && 'name' in draft && typeof draft.name === 'string'
    ? draft.name.trim()
    : ''
