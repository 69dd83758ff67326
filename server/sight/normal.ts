/** The share of a normal crowd at or under so many standard deviations, 0 to 1 (Abramowitz & Stegun 1964, 26.2.17, error under 7.5e-8). */
export function normalShare(deviations: number): number {
  const x = Math.abs(deviations)
  if (x > 8) return deviations > 0 ? 1 : 0
  const t = 1 / (1 + 0.2316419 * x)
  const sum = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI)) * sum
  return deviations > 0 ? 1 - tail : tail
}
