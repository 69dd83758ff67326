export const ROUNDS = 5

/** The middle of some numbers; of an even count the mean of the two in the middle. */
export function medianOf(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b)
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]]
  return ((low ?? Number.NaN) + (high ?? Number.NaN)) / 2
}

/** Median time of some rounds in milliseconds, after two that do not count. */
export function medianMs(work: () => unknown): number {
  for (let warm = 0; warm < 2; warm++) work()
  const times = Array.from({ length: ROUNDS }, () => {
    const from = performance.now()
    work()
    return performance.now() - from
  })
  return medianOf(times)
}

/** What a share of some times, 0 to 1, does not go beyond. */
export const shareOf = (times: readonly number[], share: number): number =>
  times.toSorted((a, b) => a - b)[Math.ceil(times.length * share) - 1] ?? Number.NaN
