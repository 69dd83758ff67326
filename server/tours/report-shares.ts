/**
 * A whole number in whole parts by their weights: the parts add up to it exactly, and none is off its true share by one
 * or more. Without any weight all of it goes to the first part.
 */
export function wholeShares(whole: number, weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0)
  let [done, given] = [0, 0]
  return weights.map((weight, i) => {
    done += weight
    const upTo = sum <= 0 || i === weights.length - 1 ? whole : Math.round((whole * done) / sum)
    const part = upTo - given
    given = upTo
    return part
  })
}

/** Numbers by their names, in the order in which the names first come. */
export function sumsBy<Thing>(
  things: readonly Thing[],
  nameOf: (thing: Thing) => string,
  countOf: (thing: Thing) => number,
): ReadonlyMap<string, number> {
  const sums = new Map<string, number>()
  for (const thing of things) sums.set(nameOf(thing), (sums.get(nameOf(thing)) ?? 0) + countOf(thing))
  return sums
}

/** The sum of numbers. */
export const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, number) => sum + number, 0)
