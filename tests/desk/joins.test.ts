import { readdirSync, readFileSync } from 'node:fs'
import { join as joinPath } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { plainCode, spacedCode } from '../../server/desk/join-codes.ts'
import type { JoinAsk } from '../../server/desk/joins.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const clock = standingClock('2026-12-17T17:20:00Z')
const folder = freshFolder()
let desk: Desk
let nightId = ''
let otherId = ''
let nowMs = Date.UTC(2026, 11, 17, 17, 20)

const open = async () => {
  desk = await openDesk(folder, { clock, nowMs: () => nowMs })
}
beforeAll(open, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})
/** Other nights for each test, and long enough after the last one that no wrong try of it counts. */
beforeEach(() => {
  clock.moveTo('2026-12-17T17:20:00Z')
  nowMs += 660_000
  nightId = seedEvening(desk, north).id
  otherId = seedEvening(desk, north).id
})

const ask = (secret: string, more: Partial<JoinAsk> = {}): JoinAsk => ({
  secret,
  name: 'Ada',
  role: 'operator',
  phoneMs: null,
  address: '192.168.50.77',
  ...more,
})
const join = (secret: string, more: Partial<JoinAsk> = {}) => desk.joins.join(ask(secret, more))
const refusal = (secret: string, more: Partial<JoinAsk> = {}): unknown => {
  try {
    return join(secret, more)
  } catch (error) {
    return error
  }
}
const WRONG = { code: 'forbidden', key: 'fault.wrong-code' }

describe('the codes of a night', () => {
  it('are 128 bits to scan and eight characters to type, other ones for each night and each turn', () => {
    const seen = new Set<string>()
    for (let turn = 0; turn < 20; turn++) {
      for (const id of [nightId, otherId]) {
        const { token, code } = desk.joins.codes(id)
        expect(Buffer.from(token, 'base64url')).toHaveLength(16)
        expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{8}$/)
        seen.add(token).add(code)
        desk.joins.turn(id)
      }
    }
    expect(seen.size).toBe(80)
  })

  it('stay the same while nobody turns them, over a restart too, and so does the network that the host has chosen', async () => {
    const before = desk.joins.codes(nightId)
    expect(desk.joins.network()).toBeNull()
    desk.joins.useNetwork('hotspot')
    await desk.close()
    await open()
    expect(desk.joins.codes(nightId)).toEqual(before)
    expect(desk.joins.network()).toBe('hotspot')
  })

  it('let nobody in once they are turned, and who is in stays in', () => {
    const { token, code } = desk.joins.codes(nightId)
    const inside = join(token)
    desk.joins.turn(nightId)
    expect(refusal(token)).toMatchObject(WRONG)
    expect(refusal(code)).toMatchObject(WRONG)
    expect(desk.sessions.who(inside.token)).toMatchObject({ name: 'Ada', nightId })
    expect(join(desk.joins.codes(nightId).code).phone.nightId).toBe(nightId)
  })

  it('lead each to its own night', () => {
    for (const id of [nightId, otherId]) {
      const { token, code } = desk.joins.codes(id)
      expect([join(token).phone.nightId, join(code).phone.nightId]).toEqual([id, id])
    }
  })

  it('let phones in around their night alone', () => {
    const { code } = desk.joins.codes(nightId)
    const inAt = (at: string): boolean => {
      clock.moveTo(at)
      return desk.joins.isJoinable(nightId)
    }
    expect(['2026-12-16T04:30:00Z', '2026-12-16T05:30:00Z'].map(inAt)).toEqual([false, true])
    expect(['2026-12-18T01:30:00Z', '2026-12-18T03:30:00Z'].map(inAt)).toEqual([true, false])
    expect(refusal(code)).toMatchObject(WRONG)
  })
})

describe('a typed code', () => {
  it('forgives small letters, blanks, dashes, O for 0, and I and L for 1', () => {
    expect(plainCode(' oIl0 -a b')).toBe('0110AB')
    const { code } = desk.joins.codes(nightId)
    const mistaken = spacedCode(code).toLowerCase().replaceAll('0', 'o').replaceAll('1', 'l')
    for (const typed of [mistaken, mistaken.replaceAll('l', 'i'), `${code.slice(0, 4)}-${code.slice(4)}`]) {
      expect(join(typed).phone.nightId).toBe(nightId)
    }
  })

  it('forgives no other letter', () => {
    const { code } = desk.joins.codes(nightId)
    const other = code.startsWith('7') ? '8' : '7'
    for (const typed of [other + code.slice(1), code.slice(1), `${code}7`]) {
      expect(refusal(typed, { address: typed })).toMatchObject(WRONG)
    }
  })

  it('never opens by being empty, nor by digits while no window is open', () => {
    for (const secret of ['', ' ', '0000']) expect(refusal(secret, { address: `a${secret}` })).toMatchObject(WRONG)
  })
})

describe('a phone that joins', () => {
  it('is who it says it is, in the role it asks for, roving, with its clock compared', () => {
    const { code } = desk.joins.codes(nightId)
    const { token, phone } = join(code, { name: '  Ben ', role: 'helper', phoneMs: nowMs - 725_000 })
    expect(phone).toMatchObject({ name: 'Ben', role: 'helper', stationId: null, isConfirmed: true, aheadSec: -725 })
    expect(desk.sessions.who(token)).toMatchObject({ id: phone.id, role: 'helper', nightId })
  })

  it('must say a name, of forty letters at most', () => {
    const { code } = desk.joins.codes(nightId)
    expect(refusal(code, { name: '   ' })).toMatchObject({ code: 'invalid', problems: [{ field: 'name' }] })
    expect(join(code, { name: 'x'.repeat(99) }).phone.name).toHaveLength(40)
  })

  it('stands where it chooses, in the row of its own night only', () => {
    const { token, phone } = join(desk.joins.codes(nightId).code)
    const [station] = desk.nights.find(nightId).stations
    desk.joins.stand(phone, station?.id ?? '')
    expect(desk.sessions.who(token)?.stationId).toBe(station?.id)
    const foreign = desk.nights.find(otherId).stations[0]?.id ?? ''
    expect(() => desk.joins.stand(phone, foreign)).toThrow('fault.no-station')
    desk.joins.stand(phone, null)
    expect(desk.sessions.who(token)?.stationId).toBeNull()
  })

  it('is listed until it is removed, with how long ago it was heard', () => {
    const { token, phone } = join(desk.joins.codes(nightId).code)
    expect(desk.joins.phones(nightId)).toMatchObject([{ id: phone.id, silentSec: null }])
    desk.sessions.who(token)
    nowMs += 90_000
    expect(desk.joins.phones(nightId)).toMatchObject([{ id: phone.id, silentSec: 90 }])
    expect(desk.joins.phones(otherId)).toEqual([])
    expect(JSON.stringify(desk.joins.phones(nightId))).not.toContain(phone.tokenHash)
  })

  it('is nobody from the very next question on once it is removed, and only by its own night', () => {
    const { token, phone } = join(desk.joins.codes(nightId).code)
    expect(() => desk.joins.revoke(otherId, phone.id)).toThrow('fault.no-phone')
    expect(desk.sessions.who(token)).toBeDefined()
    desk.joins.revoke(nightId, phone.id)
    expect(desk.sessions.who(token)).toBeUndefined()
    expect(desk.joins.phones(nightId)).toEqual([])
    expect(() => desk.joins.revoke(nightId, phone.id)).toThrow('fault.no-phone')
  })
})

describe('a quick join', () => {
  it('takes one phone as an operator, who may do nothing before the host lets it in', () => {
    const { digits, secondsLeft, triesLeft } = desk.joins.openWindow(nightId)
    expect([digits.length, secondsLeft, triesLeft]).toEqual([4, 60, 5])
    const { token, phone } = join(digits, { role: 'helper' })
    expect(phone).toMatchObject({ role: 'operator', isConfirmed: false })
    expect(desk.sessions.who(token)?.isConfirmed).toBe(false)
    expect(desk.joins.window(nightId)).toBeNull()
    expect(refusal(digits, { address: 'another' })).toMatchObject(WRONG)
    desk.joins.confirm(nightId, phone.id)
    expect(desk.sessions.who(token)?.isConfirmed).toBe(true)
  })

  it('is over after a minute', () => {
    const { digits } = desk.joins.openWindow(nightId)
    nowMs += 59_000
    expect(desk.joins.window(nightId)).toMatchObject({ secondsLeft: 1 })
    nowMs += 1_000
    expect(desk.joins.window(nightId)).toBeNull()
    expect(refusal(digits)).toMatchObject(WRONG)
  })

  it('bears five wrong tries in all, however they are written and wherever they come from', () => {
    const { digits } = desk.joins.openWindow(nightId)
    const wrong = digits === '2345' ? '2346' : '2345'
    const written = [
      wrong,
      `${wrong.slice(0, 2)} ${wrong.slice(2)}`,
      `${wrong.slice(0, 1)}-${wrong.slice(1)}`,
      ` ${wrong}`,
    ]
    for (const [place, secret] of written.entries()) refusal(secret, { address: `10.0.0.${place}` })
    expect(desk.joins.window(nightId)?.triesLeft).toBe(1)
    refusal('K7QX2M9P', { address: '10.0.0.7' })
    expect(desk.joins.window(nightId)?.triesLeft).toBe(1)
    refusal(wrong, { address: '10.0.0.9' })
    expect(desk.joins.window(nightId)).toBeNull()
    expect(refusal(digits, { address: '10.0.0.10' })).toMatchObject(WRONG)
  })

  it('opens its own night, and other digits every time', () => {
    const seen = new Set(Array.from({ length: 40 }, () => desk.joins.openWindow(nightId).digits))
    expect(seen.size).toBeGreaterThan(30)
    const { digits } = desk.joins.openWindow(otherId)
    expect(join(digits).phone.nightId).toBe(otherId)
  })
})

describe("the host's phone", () => {
  it('is paired once, within ten minutes', () => {
    const token = desk.joins.pair(nightId)
    expect(desk.joins.pairing(nightId)).toEqual({ token, secondsLeft: 600 })
    expect(join(token, { role: 'helper' }).phone).toMatchObject({ role: 'host-phone', isConfirmed: true })
    expect(desk.joins.pairing(nightId)).toBeNull()
    expect(refusal(token)).toMatchObject(WRONG)
    const late = desk.joins.pair(nightId)
    nowMs += 600_000
    expect(desk.joins.pairing(nightId)).toBeNull()
    expect(refusal(late)).toMatchObject(WRONG)
  })
})

it('no code and no token stands in the database file', () => {
  const { token, code } = desk.joins.codes(nightId)
  const secrets = [token, code, join(token).token, desk.joins.openWindow(nightId).digits, desk.joins.pair(nightId)]
  const inside = secrets.filter((secret) => secret.length > 4)
  const bytes = readdirSync(folder)
    .filter((name) => name.startsWith('duskrow.db'))
    .map((name) => readFileSync(joinPath(folder, name), 'latin1'))
    .join('')
  expect(bytes).toContain('Ada')
  for (const secret of inside) {
    expect(bytes).not.toContain(secret)
    expect(bytes).not.toContain(Buffer.from(secret, 'base64url').toString('latin1'))
  }
})
