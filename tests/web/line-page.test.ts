import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { lineNow } from '../../server/tours/line-now.ts'
import { lineHelperPage } from '../../server/web/pages/line-page.ts'
import { A_MIXED_NIGHT } from '../support/beside-data.ts'
import { A_FIELD, A_STATION_NOW, HOST, TOUR, VISITOR } from '../support/page-data.ts'
import { A_LINE_NOW, A_QUEUE, AN_EMPTY_LINE_NOW, markAt } from '../support/queue-data.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

const page = lineHelperPage(HOST, A_QUEUE)
const at = (time: string, stops = TOUR.stops, untilAt = A_STATION_NOW.untilAt) =>
  lineNow({
    night: A_MIXED_NIGHT,
    stops,
    field: {
      ...A_FIELD,
      at: new Date(`2026-11-20T${time}Z`),
      stations: [{ ...A_STATION_NOW, trouble: null, next: null, untilAt }],
    },
    marks: [markAt(1, '17:31:00', { kind: 'timed', stationId: 'station-1', payload: { people: 10, seconds: 600 } })],
  })
const shown = (line = A_LINE_NOW) => lineHelperPage(HOST, { ...A_QUEUE, line })

describe('the line helper’s page', () => {
  it('says of a telescope what it shows, how long people wait, when to close the line, and how fast it moves', () => {
    expect(page.stations[0]).toMatchObject({
      name: 'By the oak',
      now: 'Great cluster in Hercules',
      until: 'until 19:30',
      next: 'Next, at 19:30: Great cluster in Hercules, close up',
      wait: 'Wait about 10 minutes. About 12 people in line.',
      close: 'Close the line at 19:20.',
      isTimeToClose: false,
      pace: 'Timed at 18:41: 46 seconds for each person, 78 looks an hour.',
      due: 'Time ten people again from 19:41.',
    })
  })

  it('says clearly when that moment is here', () => {
    expect(shown(at('18:00:00')).stations[0]).toMatchObject({
      close: 'Close the line now.',
      closeWhy: 'Whoever joins now would not look before 19:30. Tell the last person.',
      isTimeToClose: true,
    })
  })

  it('asks for ten people an hour after the last timing, unless the line is to be closed', () => {
    const dues = ['18:30:59', '18:31:00', '20:20:00'].map((time) => shown(at(time, [], null)).stations[0])
    expect(dues).toMatchObject([
      { due: 'Time ten people again from 19:31.', isDue: false },
      { due: 'Time ten people now.', isDue: true },
      { due: null, isDue: false, isTimeToClose: true },
    ])
  })

  it('shows what the stations without a telescope do, with no line', () => {
    expect(page.stations.slice(1).map(({ name, now, wait, timing }) => [name, now, wait, timing])).toEqual([
      ['Star walk', 'Great cluster in Hercules', null, null],
      ['Two tripods', 'Great cluster in Hercules', null, null],
      ['White sheet', 'Great cluster in Hercules', null, null],
      ['Ask us', expect.any(String), null, null],
    ])
  })

  it('shows who is on the field, and whether that was counted', () => {
    expect(page.people).toMatchObject({ adults: 8, children: 4, note: 'The last one was counted at 18:40.' })
    expect(shown(AN_EMPTY_LINE_NOW).people).toMatchObject({
      adults: 0,
      children: 0,
      note: 'Nobody has counted yet. Until then the lines below go by the 35 people who are expected at this time.',
    })
  })

  it('counts one at a time and a family of four, in and out', () => {
    expect(page.gate?.acts.map(({ text, adults, children }) => [text, adults, children])).toEqual([
      ['+1 adult', 1, 0],
      ['−1 adult', -1, 0],
      ['+1 child', 0, 1],
      ['−1 child', 0, -1],
      ['+ family of four', 2, 2],
      ['− family of four', -2, -2],
    ])
    expect(page.gate).toMatchObject({ isFirst: false, adults: 0, children: 0 })
  })

  it('asks first for those who are here already, and says how many are expected', () => {
    expect(shown(AN_EMPTY_LINE_NOW).gate).toMatchObject({ isFirst: true, adults: 20, children: 15 })
  })

  it('gives every act a key, a kind, its station and the way back', () => {
    const ofTiming = Object.fromEntries(
      (page.stations[0]?.timing?.fields ?? []).map(({ name, value }) => [name, value]),
    )
    expect(ofTiming).toEqual({ key: 'key-12345', kind: 'timed', stationId: 'station-1', back: '/field/night-1/line' })
    for (const { fields } of page.gate?.acts ?? []) {
      expect(fields).toContainEqual({ name: 'kind', value: 'counted' })
      expect(fields.map(({ name }) => name)).toEqual(['key', 'kind', 'back'])
    }
  })

  it('lets a watch say every time from one minute to half an hour, and a telescope be chosen', () => {
    const times = page.watch?.times ?? []
    expect([times[0], times.at(-1)]).toMatchObject([{ text: '1:00' }, { text: '30:00' }])
    expect(times.map(({ value }) => value)).toEqual(times.map(({ value }) => value).toSorted((a, b) => a - b))
    expect(times.filter(({ isUsual }) => isUsual)).toEqual([{ value: 500, text: '8:20', isUsual: true }])
    expect(page.watch?.stations).toEqual([{ value: 'station-1', text: 'By the oak' }])
  })

  it('tells the four calls with their times, and the next one at the top', () => {
    expect(page.calls.map(({ call, when }) => [call, when])).toEqual([
      ['“Ten minutes”', '21:20'],
      ['“Close your line”', '19:20, By the oak'],
      ['“Cloud: hold”', 'At any time'],
      ['“Lights on in one minute”', '21:30'],
    ])
    expect(page.firstCalls).toEqual(['Next call: “Close your line” 19:20, By the oak'])
    expect(shown(at('18:00:00')).firstCalls).toEqual(['Call now: “Close your line” By the oak'])
    expect(shown(at('22:00:00')).firstCalls).toEqual([])
  })

  it('gives no act to whoever may read only', () => {
    const read = lineHelperPage(VISITOR, A_QUEUE)
    expect(read).toMatchObject({ gate: null, watch: null, readOnlyText: expect.stringContaining('You can read here') })
    expect(read.stations.map(({ timing }) => timing)).toEqual([null, null, null, null, null])
  })
})

describe('its address', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await testApp()
  })
  afterAll(() => service.app.close())

  const get = (url: string, cookie = '') => service.app.inject(asVisitor({ url, headers: { cookie } }))

  it('is open to everyone, is no station, and knows no other night', async () => {
    expect((await get('/field/night-1/line')).body).toContain('<title>line-page</title>')
    expect((await get('/field/night-9/line')).statusCode).toBe(404)
  })

  it('keeps the look for all pages of the field', async () => {
    const answer = await get('/field/night-1/line?look=day')
    expect(answer.headers['set-cookie']).toContain('look=day; Max-Age=43200; Path=/field; HttpOnly; SameSite=Lax')
    expect((await get('/field/night-1/line?look=sepia')).statusCode).toBe(422)
  })
})

describe('GET /api/nights/:id/queue', () => {
  it('tells every station, whether or not there is a line, and the calls', async () => {
    const { app } = await testApp()
    const answer = await app.inject(asVisitor({ url: '/api/nights/night-1/queue' }))
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toMatchObject({
      zone: 'Europe/Berlin',
      people: { adults: 20, children: 15, count: 35, isCounted: false, countedAt: null },
      stations: [
        {
          stationId: 'station-1',
          stationName: 'By the oak',
          showing: null,
          untilAt: null,
          waitMin: null,
          closeLineAt: null,
          cycleSec: null,
          isMeasured: false,
        },
      ],
    })
    expect(answer.json().calls.map(({ call }: { call: string }) => call)).toEqual(['ten', 'line', 'cloud', 'lights'])
    await app.close()
  })
})
