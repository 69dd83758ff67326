import type { Anchor, ChecklistItem, ItemGroup } from './checklist.ts'

/** The item that stands before all others of its minute. */
export const SUN_FIRST = 'sun'

type Row = readonly [id: string, role: 'host' | 'operator' | 'line', from: Anchor, offsetMin: number]

/** Common practice, no source; minutes from the anchor. */
const ROWS: Readonly<Record<ItemGroup, readonly Row[]>> = {
  equipment: [
    ['parts', 'operator', 'opens', -1440],
    ['count', 'operator', 'opens', -1440],
    ['lamps', 'host', 'opens', -1440],
    ['papers', 'host', 'opens', -1440],
    ['table', 'line', 'arrive', 30],
    ['signs', 'line', 'arrive', 60],
  ],
  batteries: [
    ['charge', 'host', 'opens', -1440],
    ['spare', 'operator', 'opens', -1440],
    ['plugs', 'operator', 'arrive', 30],
    ['half-way', 'operator', 'opens', 60],
  ],
  safety: [
    ['rules', 'host', 'opens', -1440],
    [SUN_FIRST, 'host', 'arrive', 0],
    ['ground', 'line', 'arrive', 0],
    ['lasers', 'host', 'arrive', 15],
    ['lift', 'operator', 'arrive', 15],
    ['balance', 'operator', 'arrive', 30],
    ['legs', 'operator', 'arrive', 45],
    ['cables', 'operator', 'arrive', 45],
    ['steps', 'operator', 'arrive', 45],
    ['caps-off', 'operator', 'sunset', 0],
    ['caps-on', 'operator', 'sunrise', -30],
    ['path', 'line', 'opens', -30],
    ['first-aid', 'host', 'opens', -30],
    ['children', 'line', 'opens', -10],
    ['cold', 'line', 'opens', 0],
    ['dew', 'operator', 'opens', 30],
  ],
  after: [
    ['home', 'line', 'closes', 10],
    ['light', 'host', 'closes', 10],
    ['tubes', 'operator', 'closes', 15],
    ['eyepieces', 'operator', 'closes', 20],
    ['batteries-out', 'operator', 'closes', 25],
    ['sweep', 'line', 'closes', 30],
    ['as-found', 'host', 'closes', 45],
    ['told', 'host', 'closes', 50],
  ],
}

const itemsOf = (group: ItemGroup): ChecklistItem[] =>
  ROWS[group].map(([id, role, from, offsetMin]) => ({
    id,
    group,
    text: '',
    owner: { role, name: '' },
    from,
    offsetMin,
  }))

/** The list that every night begins with. */
export const SHIPPED_ITEMS: readonly ChecklistItem[] = [
  ...itemsOf('equipment'),
  ...itemsOf('batteries'),
  ...itemsOf('safety'),
  ...itemsOf('after'),
]

const SHIPPED_IDS: ReadonlySet<string> = new Set(SHIPPED_ITEMS.map(({ id }) => id))

/** True for an item that is told in the reader's words. */
export const isShippedItem = (id: string): boolean => SHIPPED_IDS.has(id)
