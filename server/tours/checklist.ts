import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import type { SkyEvening } from '../sky/evening.ts'
import { isShippedItem, SUN_FIRST } from './checklist-items.ts'
import { type Dated, nightHours } from './hours.ts'
import { schemaProblems } from './schema-problems.ts'
import { setUpTimes } from './set-up-times.ts'

export const ITEM_GROUPS = ['equipment', 'batteries', 'safety', 'after'] as const
export type ItemGroup = (typeof ITEM_GROUPS)[number]

export const OWNER_ROLES = ['host', 'operator', 'line', 'named'] as const

/** From what the time of an item is counted: the arrival of the timeline, the sunset, the two ends of the public hours, the sunrise. */
export const ANCHORS = ['arrive', 'sunset', 'opens', 'closes', 'sunrise'] as const
export type Anchor = (typeof ANCHORS)[number]

export const MOST_ITEMS = 80
/** Two days, in minutes. */
const LONGEST_OFFSET = 2880

/** Something to be seen to, who sees to it and when. `text` is '' for an item that ships, which is told in the reader's words. */
export const ChecklistItem = Type.Object({
  id: Type.String({ minLength: 1, maxLength: 40 }),
  group: Type.Enum(ITEM_GROUPS),
  text: Type.String({ maxLength: 120 }),
  owner: Type.Object({
    role: Type.Enum(OWNER_ROLES),
    /** Who, where the role is `named`. */
    name: Type.String({ maxLength: 40 }),
  }),
  from: Type.Enum(ANCHORS),
  offsetMin: Type.Integer({ minimum: -LONGEST_OFFSET, maximum: LONGEST_OFFSET }),
})
export type ChecklistItem = Static<typeof ChecklistItem>

export const ChecklistItems = Type.Array(ChecklistItem, { maxItems: MOST_ITEMS })

/** What is wrong with a list as typed in; [] when it can be kept. Fields are `items.<row>.<part>`. */
export function checklistProblems(draft: unknown): Problem[] {
  if (!Value.Check(ChecklistItems, draft)) {
    return schemaProblems(Value.Errors(ChecklistItems, draft), ChecklistItems).map(({ field, ...problem }) => ({
      ...problem,
      field: field === '' ? 'items' : `items.${field}`,
    }))
  }
  return draft.flatMap(({ id, text, owner }, i) => [
    ...(text === '' && !isShippedItem(id) ? [{ field: `items.${i}.text`, key: 'problem.item-blank' }] : []),
    ...(owner.role === 'named' && owner.name === ''
      ? [{ field: `items.${i}.owner.name`, key: 'problem.owner-blank' }]
      : []),
  ])
}

interface TimedItem {
  readonly item: ChecklistItem
  readonly at: Date
}

const MINUTE_MS = 60_000
/** So long after closing a telescope may still stand open. */
const PACKED_MIN = 90

/**
 * The items of a night by their times, the Sun rule before all others of its minute. What hangs on the sunset begins with
 * the arrival where the Sun has set before it, or does not set; what hangs on the sunrise is left out where everything is
 * packed before.
 */
export function timedItems(
  items: readonly ChecklistItem[],
  night: Dated,
  { sunsetAt, sunriseAt }: Pick<SkyEvening, 'sunsetAt' | 'sunriseAt'>,
): readonly TimedItem[] {
  const { opensAt, closesAt } = nightHours(night)
  const arriveAt =
    setUpTimes({ sunsetAt, starsFromAt: null, opensAt, closesAt }).find(({ step }) => step === 'arrive')?.at ?? opensAt
  const packedAt = new Date(closesAt.getTime() + PACKED_MIN * MINUTE_MS)
  const anchors: Readonly<Record<Anchor, Date | null>> = {
    arrive: arriveAt,
    sunset: sunsetAt !== null && sunsetAt > arriveAt ? sunsetAt : arriveAt,
    opens: opensAt,
    closes: closesAt,
    sunrise: sunriseAt !== null && sunriseAt > opensAt && sunriseAt <= packedAt ? sunriseAt : null,
  }
  const rank = ({ item }: TimedItem): number => (item.id === SUN_FIRST ? 0 : 1)
  return items
    .flatMap((item) => {
      const from = anchors[item.from]
      return from === null ? [] : [{ item, at: new Date(from.getTime() + item.offsetMin * MINUTE_MS) }]
    })
    .toSorted((a, b) => a.at.getTime() - b.at.getTime() || rank(a) - rank(b))
}
