import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const folder = freshFolder()
const nowMs = Date.UTC(2026, 11, 17, 17, 20)
let desk: Desk
let nightId = ''
beforeAll(async () => {
  desk = await openDesk(folder, { nowMs: () => nowMs })
  nightId = seedEvening(desk, north).id
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const join = (secret: string) =>
  desk.joins.join({ secret, name: 'Ada', role: 'operator', phoneMs: null, address: '192.168.50.77' })
const refusal = (secret: string): unknown => {
  try {
    return join(secret)
  } catch (error) {
    return error
  }
}
const WRONG = { code: 'forbidden', key: 'fault.wrong-code' }
// One address that has mistyped all its tries away.
beforeEach(() => {
  for (let i = 0; i < 20; i++) refusal('ZZZZZZZZ')
  expect(refusal(desk.joins.codes(nightId).code)).toMatchObject({ code: 'busy' })
})

describe('a scanned code', () => {
  it('lets in without a wait, whatever was mistyped before and guessed elsewhere, and is no try when it is wrong', () => {
    const { token, code } = desk.joins.codes(nightId)
    for (let i = 0; i < 20; i++) expect(refusal('x'.repeat(22))).toMatchObject(WRONG)
    expect(join(token).phone.nightId).toBe(nightId)
    for (let i = 0; i < 20; i++) refusal('x'.repeat(22))
    expect(join(code).phone.nightId).toBe(nightId)
  })

  it('cannot be stood in for by a typed code made longer', () => {
    const { code } = desk.joins.codes(nightId)
    for (const secret of [code.padEnd(22, '-'), code.padEnd(22, ' '), [...code].join('--')])
      expect(refusal(secret)).toMatchObject({ code: 'busy' })
  })
})
