import { expect, it } from 'vitest'
import { alignmentQuestion, orderOf } from '../support/alignment-order.ts'

const NIGHTS = 30
const DRAWS = 10_000

it('ranks the alignment pairs as simulated centring errors do, on thirty nights of both hemispheres', () => {
  let [south, decided, tooNear] = [0, 0, 0]
  const [losses, parts, shares]: [number[], number[], number[]] = [[], [], []]
  let nights = 0
  for (let number = 0; nights < NIGHTS; number++) {
    const { latitudeDeg } = alignmentQuestion(number).night.site
    const order = orderOf(number, DRAWS)
    console.log(`night ${number}: latitude ${latitudeDeg}, ${order.pairs} pairs, ${order.decided} decided by the error`)
    expect(order.wrong, `night ${number}`).toEqual([])
    if (order.pairs < 2) continue
    nights++
    if (latitudeDeg < 0) south++
    decided += order.decided
    tooNear += order.tooNear
    losses.push(order.lossPart)
    parts.push(order.worstPart)
    shares.push(order.underTwice)
  }
  const loss = Math.max(...losses)
  const worst = Math.max(...parts)
  const least = Math.min(...shares)
  console.log(
    `${NIGHTS} nights, ${south} of them in the south: ${decided} comparisons by the error, ${tooNear} too near to tell, none more than ${(100 * loss).toFixed(2)} % above a later one; ` +
      `closed form within ${(100 * worst).toFixed(1)} % of ${DRAWS} draws; ${(100 * least).toFixed(1)} % or more within twice the mean`,
  )
  expect(south).toBeGreaterThan(8)
  expect(south).toBeLessThan(NIGHTS - 8)
  expect(decided).toBeGreaterThan(1000)
  expect(tooNear).toBeLessThan(decided / 2)
  expect(loss).toBeLessThan(0.01)
  expect(worst).toBeLessThan(0.03)
  expect(least).toBeGreaterThan(0.95)
})
