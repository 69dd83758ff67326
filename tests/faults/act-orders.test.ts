import { expect, it } from 'vitest'
import { playOrders } from '../support/act-orders.ts'

const SEED = Number(process.env.SEED ?? 7)

it(`acts that come late, again and in any order end as on paper (SEED=${SEED})`, () => {
  const { problems, ...sums } = playOrders(100, SEED)
  expect(problems).toEqual([])
  expect(sums.undos).toBeGreaterThan(100)
  expect(sums.refused).toBeGreaterThan(100)
})
