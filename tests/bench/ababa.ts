import { medianOf } from './median.ts'

/** How fast each of several works went beside the same yardstick, which is measured before, between and after them. */
export interface Beside {
  /** Of the yardstick, in each round. */
  readonly yardstick: readonly number[]
  /** The widest spread of the yardstick within one round, as a share of its median: above a quarter nothing is told. */
  readonly spread: number
  /** By the name of the work: the ratio to the yardstick of the same round. */
  readonly ratios: Readonly<Record<string, readonly number[]>>
}

type Work = () => Promise<number> | number

export const MOST_SPREAD = 0.25

/** Rounds of yardstick, work, yardstick, work, yardstick … with every work twice in each. */
export async function ababa(yardstick: Work, works: Readonly<Record<string, Work>>, rounds: number): Promise<Beside> {
  const names = Object.keys(works)
  const [medians, spreads] = [[] as number[], [] as number[]]
  const ratios: Record<string, number[]> = Object.fromEntries(names.map((name) => [name, []]))
  for (let round = 0; round < rounds; round++) {
    const seen = [await yardstick()]
    const taken = new Map<string, number[]>()
    for (const name of [...names, ...names]) {
      taken.set(name, [...(taken.get(name) ?? []), (await works[name]?.()) ?? Number.NaN])
      seen.push(await yardstick())
    }
    const middle = medianOf(seen)
    medians.push(middle)
    spreads.push((Math.max(...seen) - Math.min(...seen)) / middle)
    for (const name of names) ratios[name]?.push(medianOf(taken.get(name) ?? []) / middle)
  }
  return { yardstick: medians, spread: Math.max(...spreads), ratios }
}
