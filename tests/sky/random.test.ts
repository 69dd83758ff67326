import { expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'

const take = (seed: number, count: number): number[] => {
  const random = seededRandom(seed)
  return Array.from({ length: count }, random)
}

it('gives the same stream for the same seed and another for the next seed', () => {
  expect(take(42, 100)).toEqual(take(42, 100))
  expect(take(42, 100)).not.toEqual(take(43, 100))
})

it('spreads evenly from 0 up to 1, pair after pair', () => {
  const numbers = take(1, 40_000)
  expect(Math.min(...numbers)).toBeGreaterThanOrEqual(0)
  expect(Math.max(...numbers)).toBeLessThan(1)
  const cells = new Array<number>(16).fill(0)
  for (let index = 0; index < numbers.length; index += 2) {
    const cell = 4 * Math.floor(4 * (numbers[index] ?? 0)) + Math.floor(4 * (numbers[index + 1] ?? 0))
    cells[cell] = (cells[cell] ?? 0) + 1
  }
  const surprise = cells.reduce((sum, count) => sum + (count - 1250) ** 2 / 1250, 0)
  expect(surprise).toBeLessThan(37.7)
})
