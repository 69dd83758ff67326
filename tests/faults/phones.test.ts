import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SLOW_MS } from '../support/desk-folder.ts'
import { judge, PHONES, playEvening } from './phones.ts'
import { type PhoneService, phoneService } from './phones-service.ts'

const SHARE = 0.3
const TAPS = 200

let service: PhoneService
beforeAll(async () => {
  service = await phoneService()
}, SLOW_MS)
afterAll(() => service.close())

describe(`${PHONES} phones over air in which ${SHARE * 100} % of all that is sent goes wrong`, () => {
  it.each([1, 2])('keep every tap once, and the row ends as without a fault (seed %i)', async (seed) => {
    const played = await playEvening(service, seed, TAPS, SHARE)
    const calm = await playEvening(service, seed, TAPS, 0)
    expect(judge(played, calm)).toEqual([])
    for (const [fault, count] of Object.entries(played.faults)) expect(count, fault).toBeGreaterThan(0)
    expect(played.crashes).toBeGreaterThan(0)
  })
})
