import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { boardPage } from '../../server/web/pages/board.ts'
import { phonesPage } from '../../server/web/pages/phones.ts'
import { scanCode } from '../../server/web/pages/phones-ways.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_PHONE_NOW, A_WAITING_PHONE } from '../support/join-data.ts'
import { OTHER, OWN } from '../support/joined-night.ts'
import { A_FIELD, AN_EVENING, ENGLISH, HOLDING, HOST, NAMES, TOUR, VISITOR } from '../support/page-data.ts'
import { BUSY, SHUT } from '../support/phone-pages.ts'
import { type PhoneService, phoneService, textOf } from '../support/phone-service.ts'

const PAGE = `/nights/${OWN.id}/phones`
let service: PhoneService
beforeAll(async () => {
  service = await phoneService()
})
afterAll(() => service.close())

const page = async (url = PAGE) => (await service.host({ url })).body
const drawings = (html: string) => html.match(/<svg /g)?.length ?? 0

describe('an address to type', () => {
  it('ends a line after a slash or a dot alone, and is whole together', () => {
    const address = 'http://192.0.2.2:42553/tonight/rkxs5pamwq'
    const pieces = scanCode(ENGLISH, address, null).address
    expect(pieces).toEqual(['http://', '192.', '0.', '2.', '2:42553/', 'tonight/', 'rkxs5pamwq'])
    expect(pieces.join('')).toBe(address)
  })
})

describe('the page of the phones', () => {
  it('is for the host at the laptop alone', async () => {
    expect((await service.host({ url: PAGE })).statusCode).toBe(200)
    for (const token of ['', service.tokens.operator, service.tokens.hostPhone, service.tokens.host]) {
      for (const url of [PAGE, `/nights/${OWN.id}/print/join-card`]) {
        expect((await service.phone({ url }, token)).statusCode).toBe(403)
      }
      expect((await service.send(PAGE, { act: 'turn' }, token)).statusCode).toBe(403)
    }
  })

  it('shows every address with a picture of its own and the code in two halves, and never the token as text', async () => {
    const html = await page()
    const { token, code } = service.desk.joins.codes(OWN.id)
    expect(html).toContain('http://192.168.137.1:8080/join')
    expect(html).toContain('http://192.168.1.23:8080/join')
    expect(drawings(html)).toBe(3)
    expect(html).toContain(`${code.slice(0, 4)} ${code.slice(4)}`)
    expect(html).toContain(`http://192.168.137.1:8080/tonight/${OWN.id}`)
    expect(html).not.toContain(token)
  })

  it('reads the addresses anew, puts the chosen network first and remembers it', async () => {
    const first = async () => /http:\/\/[\d.]+/.exec(await page())?.[0]
    await service.act('network', 'wlan0')
    expect(await first()).toBe('http://192.168.1.23')
    await service.act('network', 'a network that is not there')
    expect(service.desk.joins.network()).toBe('wlan0')
    service.addresses.splice(1, 1)
    expect(await first()).toBe('http://192.168.137.1')
    service.addresses.push({ network: 'wlan0', address: '192.168.7.7' })
    expect(await first()).toBe('http://192.168.7.7')
  })

  it('gives other codes, and keeps who is in', async () => {
    const before = service.desk.joins.codes(OWN.id)
    expect((await service.act('turn')).headers.location).toBe(PAGE)
    expect(await page()).not.toContain(`${before.code.slice(0, 4)} ${before.code.slice(4)}`)
    expect(service.desk.sessions.who(service.tokens.operator)).toBeDefined()
  })

  it('opens a way for one phone and lists it by name until it is let in', async () => {
    await service.act('window')
    const { digits = '' } = service.desk.joins.window(OWN.id) ?? {}
    expect(textOf(await page())).toMatch(new RegExp(`${digits} 60 seconds left. 5 tries left`))
    await service.send('/join', { code: digits, name: 'Quincy' })
    const html = await page()
    expect(textOf(html)).toContain('Let Quincy in')
    expect(textOf(await page(`/nights/${OWN.id}`))).toMatch(/Quincy[^.]* wait/)
    const waiting = service.desk.joins.phones(OWN.id).find(({ name }) => name === 'Quincy')
    await service.act('let-in', waiting?.id)
    expect(textOf(await page())).toContain('Remove Quincy')
  })

  it('shows the picture for the host’s own phone only while it works', async () => {
    const before = drawings(await page())
    await service.act('pair')
    const html = await page()
    expect(drawings(html)).toBe(before + 1)
    expect(textOf(html)).toContain('It works once, and for 10 minutes more.')
    expect(html).not.toContain(service.desk.joins.pairing(OWN.id)?.token)
    await service.send('/join', { token: service.desk.joins.pairing(OWN.id)?.token ?? '', name: 'Host' })
    expect(drawings(await page())).toBe(before)
  })

  it('knows no other act, and no phone of another night', async () => {
    for (const act of ['', 'unheard-of', 'constructor', '__proto__']) {
      expect((await service.act(act)).statusCode).toBe(422)
    }
    const phone = service.desk.joins.phones(OWN.id)[0]?.id ?? ''
    const elsewhere = { act: 'remove', value: phone }
    const payload = new URLSearchParams(elsewhere).toString()
    const headers = { 'content-type': 'application/x-www-form-urlencoded' }
    const answer = await service.host({ method: 'POST', url: `/nights/${OTHER.id}/phones`, headers, payload })
    expect(answer.statusCode).toBe(404)
    expect(service.desk.joins.phones(OWN.id).map(({ id }) => id)).toContain(phone)
  })
})

describe('a phone that is removed', () => {
  const listen = async (token: string) => {
    const url = `/api/nights/${OWN.id}/live`
    const answer = await service.app.inject({
      url,
      remoteAddress: '192.168.50.80',
      headers: { host: '192.168.50.1:8080', cookie: `duskrow-session=${token}` },
      payloadAsStream: true,
    })
    const stream = answer.stream().resume()
    let isOver = false
    stream.once('close', () => {
      isOver = true
    })
    return { isOver: () => isOver, end: () => stream.destroy() }
  }

  it('hears nothing more within a second, and the others go on', async () => {
    const gone = (await service.send('/join', { code: service.desk.joins.codes(OWN.id).code, name: 'Zoe' })).cookies[0]
    const streams = [await listen(gone?.value ?? ''), await listen(service.tokens.helper), await listen('')]
    const { id } = service.desk.joins.phones(OWN.id).find(({ name }) => name === 'Zoe') ?? {}
    await service.act('remove', id)
    await expect.poll(() => streams.map(({ isOver }) => isOver()), { timeout: 1_000 }).toEqual([true, false, false])
    for (const stream of streams) stream.end()
    const mark = {
      key: 'phone-z-0001',
      kind: 'shown',
      stationId: 'station-1',
      payload: { targetKey: 'm13' },
      secondsAgo: 0,
    }
    const sent = { method: 'POST', url: `/api/nights/${OWN.id}/marks`, payload: { marks: [mark] } } as const
    expect((await service.phone(sent, gone?.value)).statusCode).toBe(403)
  })
})

describe('how things stand', () => {
  const lines = (more: Partial<typeof BUSY>) => phonesPage(HOST, { ...BUSY, ...more }).health.map(({ text }) => text)

  it('counts phones, taps and room on the disk', () => {
    expect(lines({}).slice(0, 3)).toEqual([
      '3 phones have joined, 1 heard from in the last 2 minutes.',
      '4.2 a minute over the last ten minutes.',
      '120 GB free.',
    ])
    expect(lines({ phones: [A_PHONE_NOW] })[0]).toBe('1 phone has joined, 1 heard from in the last 2 minutes.')
    expect(lines({ phones: [A_WAITING_PHONE] })[0]).toBe('No phone has joined yet.')
    expect(lines({ marksInTenMin: 0 })[1]).toBe('None in the last ten minutes.')
    expect(lines({ freeBytes: 4.25e9 })[2]).toBe('4.3 GB free.')
    expect(lines({ freeBytes: null })[2]).toBe('Not known.')
  })

  it('warns of a full disk', () => {
    const { health } = phonesPage(HOST, { ...BUSY, freeBytes: 0.2e9 })
    expect(health[2]).toMatchObject({ text: 'Only 0.2 GB free: make room before the night.', isWarning: true })
  })

  it('counts the taps of the last ten minutes, as they came', async () => {
    const marks = Array.from({ length: 8 }, (_, i) => ({
      key: `phone-m-000${i}`,
      kind: 'shown',
      stationId: 'station-1',
      payload: { targetKey: 'm13' },
      secondsAgo: 7_000,
    }))
    service.desk.marks.record(OWN.id, marks, 'Ada', 'operator')
    expect(textOf(await page())).toContain('0.8 a minute')
    service.clock.moveTo('2026-11-20T18:10:00Z')
    expect(textOf(await page())).toContain('None in the last ten minutes.')
  })

  it('says of each phone what it does, when it was heard, and when its clock is wrong', () => {
    const { phones, waiting } = phonesPage(HOST, BUSY)
    expect(phones.map(({ name, facts, warning }) => [name, facts.join(', '), warning])).toEqual([
      ['Ada', 'at a telescope, stands at By the oak, heard just now, clock right', null],
      ['Cem', 'helps with the line, last heard 7 minutes ago', 'Look at it: clock 12 minutes behind'],
      [
        'Host',
        'the host’s phone, has no station of its own, not heard since the laptop was started, clock not told',
        null,
      ],
    ])
    expect(waiting.map(({ acts }) => acts.map(({ text }) => text))).toEqual([['Let Ben in', 'Turn Ben away']])
  })
})

describe('a laptop that no phone can reach', () => {
  it('says how to start it, and shows no picture', () => {
    const shut = phonesPage(HOST, SHUT)
    const told = /let nobody in\. No phone can reach this laptop now\. .*Ctrl\+C .*start it again so:$/
    expect(shut.obstacles.join(' ')).toMatch(told)
    expect([shut.command, shut.ways, shut.visitors]).toEqual(['npm start -- --lan', [], null])
    expect(phonesPage(HOST, { ...SHUT, isOpen: true, isJoinable: true }).obstacles.join()).toMatch(
      /^The laptop is on no network/,
    )
    expect(phonesPage(HOST, BUSY)).toMatchObject({ obstacles: [], command: null })
  })
})

describe('the board', () => {
  const board = {
    night: A_NIGHT,
    evening: AN_EVENING,
    tour: TOUR,
    state: HOLDING,
    field: A_FIELD,
    out: [],
    go: undefined,
    backups: null,
    siteCount: 1,
    telescopeCount: 1,
  }
  const line = (viewer: typeof HOST, phones: typeof BUSY.phones) =>
    boardPage(viewer, { ...board, names: NAMES, newKey: () => 'key-12345', phones }).phones

  it('says in one line how many are in and who waits, to the host alone', () => {
    expect(line(HOST, BUSY.phones)).toEqual({
      label: 'Phones',
      href: `/nights/${A_NIGHT.id}/phones`,
      text: '3 phones have joined, 1 heard from in the last 2 minutes. Ben waits to be let in.',
    })
    expect(line(HOST, [])?.text).toBe('No phone has joined yet.')
    expect(line(VISITOR, BUSY.phones)).toBeNull()
  })
})

describe('the join card', () => {
  it('lets helpers in on its first page and nobody on its second', async () => {
    const html = await page(`/nights/${OWN.id}/print/join-card?paper=letter`)
    const { token, code } = service.desk.joins.codes(OWN.id)
    const [, helpers = '', visitors = ''] = html.split(/<section class="page page-letter join-card[ a-z-]*">/)
    expect([drawings(helpers), drawings(visitors)]).toEqual([1, 1])
    expect(textOf(helpers)).toContain(`Code: ${code.slice(0, 4)} ${code.slice(4)}`)
    for (const word of ['auto-lock', 'brightness', 'red filter', 'notifications', 'Stay connected without internet']) {
      expect(textOf(helpers)).toContain(word)
    }
    expect(visitors).toContain(`/tonight/${OWN.id}`)
    expect(visitors).not.toContain(code.slice(0, 4))
    expect(html).not.toContain(token)
  })
})
