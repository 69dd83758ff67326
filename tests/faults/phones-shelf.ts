import type { Shelf } from '../../views/scripts/held.ts'

/** A phone's storage: outlives its pages, and holds so many characters. */
export function phoneShelf(room = Number.POSITIVE_INFINITY) {
  const texts = new Map<string, string>()
  const size = (): number => [...texts].reduce((sum, [name, text]) => sum + name.length + text.length, 0)
  return {
    get length() {
      return texts.size
    },
    key: (index: number) => [...texts.keys()][index] ?? null,
    getItem: (name: string) => texts.get(name) ?? null,
    removeItem: (name: string) => void texts.delete(name),
    setItem(name: string, text: string) {
      const before = texts.get(name)
      texts.set(name, text)
      if (size() <= room) return
      if (before === undefined) texts.delete(name)
      else texts.set(name, before)
      throw new Error('The storage is full')
    },
  } satisfies Shelf
}

/** The storage as one page sees it: a page that has crashed writes nothing any more. */
export function pageShelf(shelf: Shelf): { readonly shelf: Shelf; crash(): void } {
  let isDead = false
  const alive = <Result>(act: () => Result): Result => {
    if (isDead) throw new Error('The page is gone')
    return act()
  }
  const own: Shelf = {
    get length() {
      return alive(() => shelf.length)
    },
    key: (index) => alive(() => shelf.key(index)),
    getItem: (name) => alive(() => shelf.getItem(name)),
    setItem: (name, text) => alive(() => shelf.setItem(name, text)),
    removeItem: (name) => alive(() => shelf.removeItem(name)),
  }
  return {
    shelf: own,
    crash() {
      isDead = true
    },
  }
}
