import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { instantOf, nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { schemaProblems } from './schema-problems.ts'
import { WishDraft, type WishKind } from './wish.ts'

type Part = 'stationId' | 'targetKey' | 'startsAt' | 'endsAt' | 'aim' | 'things'

/** What each kind must say, and what it may; a purpose names a target or kinds of things. */
const PARTS: Readonly<Record<WishKind, { readonly must: readonly Part[]; readonly may: readonly Part[] }>> = {
  pin: { must: ['targetKey', 'stationId', 'startsAt', 'endsAt'], may: ['aim'] },
  bar: { must: ['targetKey'], may: ['stationId', 'startsAt', 'endsAt', 'aim'] },
  ask: { must: ['targetKey'], may: [] },
  only: { must: ['stationId'], may: ['targetKey', 'things'] },
}
const ALL_PARTS: readonly Part[] = ['stationId', 'targetKey', 'startsAt', 'endsAt', 'aim', 'things']
const QUARTER_MIN = 15

/** What is wrong with a wish as it is sent, whatever else is wished; [] when it can be weighed. */
export function wishProblems(draft: unknown, night: Night, isKnown: (key: string) => boolean): Problem[] {
  if (!Value.Check(WishDraft, draft)) return schemaProblems(Value.Errors(WishDraft, draft), WishDraft)
  const { must, may } = PARTS[draft.kind]
  const isSaid = (part: Part): boolean => (part === 'things' ? (draft.things ?? []).length > 0 : draft[part] != null)
  const missing = must.filter((part) => !isSaid(part))
  const strange = ALL_PARTS.filter((part) => isSaid(part) && !must.includes(part) && !may.includes(part))
  const { stationId, targetKey } = draft
  const isInRow = !stationId || night.stations.some(({ id }) => id === stationId)
  const isPurposeClear = draft.kind !== 'only' || isSaid('targetKey') !== isSaid('things')
  return [
    ...missing.map((field) => ({ field, key: 'problem.required' })),
    ...strange.map((field) => ({ field, key: 'wish.not-of-kind' })),
    ...unless(isInRow, 'stationId', 'problem.station-unknown'),
    ...unless(!targetKey || isKnown(targetKey), 'targetKey', 'problem.object-unknown'),
    ...unless(isPurposeClear, 'things', 'wish.purpose-unclear'),
    ...timeProblems(draft, night),
  ]
}

function timeProblems({ startsAt, endsAt }: WishDraft, night: Night): Problem[] {
  if (!startsAt && !endsAt) return []
  if (!startsAt || !endsAt) return [{ field: startsAt ? 'endsAt' : 'startsAt', key: 'problem.required' }]
  const crooked = (['startsAt', 'endsAt'] as const).filter((field) => {
    const time = field === 'startsAt' ? startsAt : endsAt
    return Number(time.slice(3)) % QUARTER_MIN !== 0 && time !== night.opens && time !== night.closes
  })
  if (crooked.length > 0) return crooked.map((field) => ({ field, key: 'wish.no-quarter' }))
  const [from, to] = [instantOf(night, startsAt), instantOf(night, endsAt)]
  const { opensAt, closesAt } = nightHours(night)
  const hours = { opens: night.opens, closes: night.closes }
  return [
    ...unless(from < to, 'endsAt', 'wish.times-order'),
    ...unless(from >= opensAt && from < closesAt, 'startsAt', 'wish.time-outside', hours),
    ...unless(to > opensAt && to <= closesAt, 'endsAt', 'wish.time-outside', hours),
  ]
}

const unless = (isFine: boolean, field: string, key: string, values?: Problem['values']): Problem[] =>
  isFine ? [] : [{ field, key, ...(values && { values }) }]
