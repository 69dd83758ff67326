import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { OTHER, OWN, OWN_TOUR } from '../support/joined-night.ts'
import { type PhoneService, phoneService, textOf, unescaped } from '../support/phone-service.ts'

let service: PhoneService
beforeAll(async () => {
  service = await phoneService()
})
afterAll(() => service.close())

const codes = () => service.desk.joins.codes(OWN.id)
const fields = (more: Record<string, string> = {}) => ({ code: codes().code, name: 'Ada', role: 'operator', ...more })
const join = (more: Record<string, string> = {}, token = '') => service.send('/join', fields(more), token)
const phoneNamed = (name: string) => service.desk.joins.phones(OWN.id).find((phone) => phone.name === name)
const inside = () => service.desk.joins.phones(OWN.id).length
const tokenOf = ({ cookies }: Awaited<ReturnType<typeof join>>): string => cookies[0]?.value ?? ''
const mark = {
  method: 'POST',
  url: `/api/nights/${OWN.id}/marks`,
  payload: {
    marks: [
      { key: 'phone-a-0001', kind: 'shown', stationId: 'station-1', payload: { targetKey: 'm13' }, secondsAgo: 0 },
    ],
  },
} as const

describe('the way in', () => {
  it('changes nothing by being looked at, however often and by whomever', async () => {
    const before = inside()
    for (let i = 0; i < 100; i++) {
      const { statusCode, cookies } = await service.phone({ url: i % 2 === 0 ? '/join' : '/join?as=host&look=day' })
      expect([statusCode, cookies]).toEqual([200, []])
    }
    expect(inside()).toBe(before)
  })

  it('lets a phone in by the typed code, as it is typed, and leads it to the row in its look', async () => {
    const { code } = codes()
    const typed = `${code.slice(0, 4)} ${code.slice(4)}`.toLowerCase()
    const answer = await join({ code: typed, look: 'day' })
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `/field/${OWN.id}?look=day`])
    expect(answer.cookies).toEqual([
      {
        name: 'duskrow-session',
        value: expect.any(String),
        path: '/',
        httpOnly: true,
        sameSite: 'Lax',
        maxAge: 43_200,
      },
    ])
    expect((await service.phone(mark, tokenOf(answer))).statusCode).toBe(200)
  })

  it('lets a phone in by the token of the picture, whatever stands in the field for the code', async () => {
    const answer = await join({ token: codes().token, code: 'nonsense', role: 'helper' })
    expect(answer.headers.location).toBe(`/field/${OWN.id}/line?look=lamp`)
    expect(service.desk.sessions.who(tokenOf(answer))).toMatchObject({ role: 'helper', name: 'Ada' })
  })

  it('shows the form again for a wrong code, with what was typed, and lets nobody in', async () => {
    const before = inside()
    const answer = await join({ code: 'K7QX <2M9>', name: 'Ada "A"', role: 'helper' })
    expect([answer.statusCode, answer.cookies]).toEqual([422, []])
    expect(textOf(answer.body)).toContain('This code lets nobody in.')
    expect(answer.body).toContain('value="K7QX &lt;2M9&gt;"')
    expect(answer.body).toContain('value="Ada &quot;A&quot;"')
    expect(answer.body).toMatch(/value="helper" checked/)
    expect(inside()).toBe(before)
  })

  it('never writes a token back that was wrong', async () => {
    const answer = await join({ token: 'AbCdEfGhIjKlMnOpQrStUv' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).not.toContain('AbCdEfGhIjKlMnOpQrStUv')
  })

  it('asks for a code and a name', async () => {
    for (const more of [{ name: ' ' }, { code: '' }, { code: '  ', name: '' }]) {
      const answer = await join(more)
      expect(answer.statusCode).toBe(422)
      expect(textOf(answer.body)).toContain('This is missing.')
    }
    expect((await service.phone({ method: 'POST', url: '/join', payload: { never: 'asked' } })).statusCode).toBe(422)
  })

  it('takes no form from another site', async () => {
    const headers = { origin: 'http://evil.example', 'content-type': 'application/x-www-form-urlencoded' }
    const payload = new URLSearchParams(fields()).toString()
    const answer = await service.phone({ method: 'POST', url: '/join', headers, payload })
    expect([answer.statusCode, answer.cookies]).toEqual([403, []])
  })

  it('ends the session of before when a phone joins anew', async () => {
    const first = tokenOf(await join())
    const second = tokenOf(await join({ role: 'helper' }, first))
    expect(service.desk.sessions.who(first)).toBeUndefined()
    expect(service.desk.sessions.who(second)).toMatchObject({ role: 'helper' })
    const wrong = await join({ code: ' ' }, second)
    expect(wrong.body).toMatch(/<details open><summary>/)
  })

  it('tells a phone that is in who it is, and the way on', async () => {
    const page = await service.phone({ url: '/join' }, service.tokens.helper)
    expect(textOf(page.body)).toContain('This phone is in: Ada, helps with the line.')
    expect(unescaped(page.body)).toContain(`href="/field/${OWN.id}/line?look=lamp"`)
  })
})

describe('the clock of a phone', () => {
  const at = (aheadMs: number) => new Date(service.clock.now().getTime() + aheadMs).toISOString()

  it('is told of beyond half a minute, before the way goes on', async () => {
    const answer = await join({ phoneAt: at(-725_000) })
    expect(answer.headers.location).toBe('/join?look=lamp')
    const page = await service.phone({ url: '/join' }, tokenOf(answer))
    expect(textOf(page.body)).toContain('The clock of this phone is 12 minutes behind the laptop’s.')
    expect((await join({ phoneAt: at(45_000) })).headers.location).toBe('/join?look=lamp')
  })

  it('is let be within it, and where it is not told', async () => {
    for (const phoneAt of [at(25_000), at(-25_000), '', 'half past six']) {
      expect((await join({ phoneAt })).headers.location).toBe(`/field/${OWN.id}?look=lamp`)
    }
  })
})

describe('a quick joiner', () => {
  it('waits, may do nothing, and goes on when the host has let it in', async () => {
    const { digits } = service.desk.joins.openWindow(OWN.id)
    const answer = await join({ code: digits, name: 'Ben' })
    expect(answer.headers.location).toBe('/join?look=lamp')
    const token = tokenOf(answer)
    const waits = await service.phone({ url: '/join' }, token)
    expect(textOf(waits.body)).toContain('The host looks at your name now: Ben.')
    expect(waits.body).toContain('data-waits')
    expect(waits.body).not.toContain('<form')
    expect((await service.phone(mark, token)).statusCode).toBe(403)
    expect((await service.send(`/field/${OWN.id}/stand`, { stationId: 'station-1' }, token)).statusCode).toBe(403)

    const pending = phoneNamed('Ben')
    await service.act('let-in', pending?.id)
    const on = await service.phone({ url: '/join' }, token)
    expect(unescaped(on.body)).toContain(`data-go="/field/${OWN.id}?look=lamp"`)
    expect((await service.phone(mark, token)).statusCode).toBe(200)
  })

  it('that is turned away reads so, and gets the form again', async () => {
    const token = tokenOf(await join({ code: service.desk.joins.openWindow(OWN.id).digits, name: 'Cem' }))
    const phone = phoneNamed('Cem')
    await service.act('remove', phone?.id)
    const page = await service.phone({ url: '/join' }, token)
    expect(textOf(page.body)).toContain('This phone is not, or no longer, on the night.')
    expect(page.body).toContain('<form')
    expect((await service.phone(mark, token)).statusCode).toBe(403)
  })
})

describe("the host's phone", () => {
  it('is asked for no role, and comes to the board', async () => {
    expect((await service.phone({ url: '/join?as=host' })).body).not.toContain('type="radio"')
    const answer = await join({ token: service.desk.joins.pair(OWN.id), as: 'host', name: 'Host' })
    expect(answer.headers.location).toBe(`/nights/${OWN.id}`)
  })

  it('takes in, drops and builds programmes, on its own night, and touches neither kit nor codes', async () => {
    const send = async (url: string, more: Record<string, string> = {}) =>
      (await service.send(url, { key: 'phone-h-0001', tourId: OWN_TOUR.id, ...more }, service.tokens.hostPhone))
        .statusCode
    for (const [place, path] of ['programme', 'again/drop', 'again', 'programme/accept'].entries()) {
      expect([401, 403]).not.toContain(await send(`/nights/${OWN.id}/${path}`, { key: `phone-h-000${place}` }))
      expect(await send(`/nights/${OTHER.id}/${path}`)).toBe(403)
    }
    const own = `/nights/${OWN.id}`
    for (const path of ['/sites', '/telescopes', '/nights', own, `${own}/phones`])
      expect(await send(path), path).toBe(403)
    for (const url of ['/sites/new', '/nights/new', `${own}/edit`, `${own}/phones`, `${own}/print/join-card`]) {
      expect((await service.phone({ url }, service.tokens.hostPhone)).statusCode, url).toBe(403)
    }
    const accepted = service.desk.marks.since(OWN.id, 0).find(({ kind }) => kind === 'accepted')
    expect(accepted?.by).toBe('Ada')
  })

  it('has the buttons for it on the page of the change of plan', async () => {
    const page = await service.phone({ url: `/nights/${OWN.id}/again` }, service.tokens.hostPhone)
    expect(page.body).toContain(`action="/nights/${OWN.id}/again"`)
    expect((await service.phone({ url: `/nights/${OWN.id}/again` }, service.tokens.operator)).body).not.toContain(
      '<form method="post" action="/nights',
    )
  })
})

describe('where a phone stands', () => {
  const stand = (stationId: string, token: string, nightId = OWN.id) =>
    service.send(`/field/${nightId}/stand`, { stationId }, token)

  it('is chosen by an operator, who comes to the page of the station, or to the row when roving', async () => {
    const { operator } = service.tokens
    expect((await stand('station-1', operator)).headers.location).toBe(`/field/${OWN.id}/station-1`)
    expect(service.desk.sessions.who(operator)?.stationId).toBe('station-1')
    expect((await stand('', operator)).headers.location).toBe(`/field/${OWN.id}`)
    expect(service.desk.sessions.who(operator)?.stationId).toBeNull()
  })

  it('leads a helper to the line', async () =>
    expect((await stand('', service.tokens.helper)).headers.location).toBe(`/field/${OWN.id}/line`))

  it('is a station of the night that the phone has joined', async () => {
    const { operator } = service.tokens
    expect((await stand('station-2', operator)).statusCode).toBe(404)
    expect((await stand('//evil.example', operator)).statusCode).toBe(404)
    expect((await stand('station-2', operator, OTHER.id)).statusCode).toBe(403)
    expect((await stand('station-1', '')).statusCode).toBe(403)
  })
})

describe('a phone with too many wrong codes', () => {
  it('reads how many seconds to wait', async () => {
    for (let i = 0; i < 5; i++) expect((await join({ code: 'K7QX2M9P' })).statusCode).toBe(422)
    const answer = await join()
    expect([answer.statusCode, answer.headers['retry-after'], answer.cookies]).toEqual([429, '8', []])
    expect(textOf(answer.body)).toContain('or try again in 8 seconds.')
  })
})
