/** Something that falls due at a second of the evening; of two at the same second the one added first comes first. */
interface Due {
  readonly sec: number
}

/** What is still to come, soonest first. */
export interface Agenda<Item extends Due> {
  readonly items: { readonly item: Item; readonly order: number }[]
  added: number
}

export const agenda = <Item extends Due>(): Agenda<Item> => ({ items: [], added: 0 })

/** The soonest item, left where it is. */
export const soonest = <Item extends Due>({ items }: Agenda<Item>): Item | undefined => items[0]?.item

export function addTo<Item extends Due>(list: Agenda<Item>, item: Item): void {
  const { items } = list
  list.added += 1
  items.push({ item, order: list.added })
  let at = items.length - 1
  while (at > 0) {
    const above = (at - 1) >> 1
    if (!isBefore(items, at, above)) return
    swap(items, at, above)
    at = above
  }
}

/** Takes the soonest item out. */
export function takeFrom<Item extends Due>({ items }: Agenda<Item>): Item | undefined {
  const [first, last] = [items[0], items.pop()]
  if (first === undefined || last === undefined || items.length === 0) return first?.item
  items[0] = last
  let at = 0
  for (;;) {
    let next = at
    for (const below of [2 * at + 1, 2 * at + 2]) if (below < items.length && isBefore(items, below, next)) next = below
    if (next === at) return first.item
    swap(items, at, next)
    at = next
  }
}

type Items = Agenda<Due>['items']

function isBefore(items: Items, a: number, b: number): boolean {
  const [one, other] = [items[a], items[b]]
  if (one === undefined || other === undefined) return false
  return one.item.sec < other.item.sec || (one.item.sec === other.item.sec && one.order < other.order)
}

function swap<Kept>(items: Kept[], a: number, b: number): void {
  const [one, other] = [items[a], items[b]]
  if (one === undefined || other === undefined) return
  items[a] = other
  items[b] = one
}
