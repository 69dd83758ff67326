export const ROUNDS = 5

/** Median time of some rounds in milliseconds, after two that do not count. */
export function medianMs(work: () => unknown): number {
  for (let warm = 0; warm < 2; warm++) work()
  const times = Array.from({ length: ROUNDS }, () => {
    const from = performance.now()
    work()
    return performance.now() - from
  })
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)] ?? Number.NaN
}
