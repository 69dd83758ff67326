/** Remembers what was made: asked for again by the same name, the same thing; the `most` last used are kept. */
export function shelf<Thing>(most: number) {
  const kept = new Map<string, Thing>()
  return {
    find: (name: string): Thing | undefined => kept.get(name),
    take(name: string, make: () => Thing): Thing {
      const thing = kept.get(name) ?? make()
      kept.delete(name)
      kept.set(name, thing)
      for (const oldest of kept.keys()) if (kept.size > most) kept.delete(oldest)
      return thing
    },
    drop: (name: string): void => void kept.delete(name),
  }
}
