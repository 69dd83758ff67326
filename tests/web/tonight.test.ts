import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { StationNow } from '../../server/tours/field.ts'
import { lineNow } from '../../server/tours/line-now.ts'
import { tonightPage } from '../../server/web/pages/tonight.ts'
import { comfortTexts } from '../../server/web/pages/tonight-comfort.ts'
import { A_MIXED_NIGHT } from '../support/beside-data.ts'
import { A_NIGHT, A_TELESCOPE } from '../support/field-data.ts'
import { A_FIELD, A_STATION_NOW, ENGLISH, TOUR, UNTOLD, VISITOR } from '../support/page-data.ts'
import { A_TONIGHT_PAGE } from '../support/queue-data.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

const page = tonightPage(VISITOR, A_TONIGHT_PAGE)
const lineAt = (time: string, state: Partial<StationNow> = {}) =>
  lineNow({
    night: A_MIXED_NIGHT,
    stops: TOUR.stops,
    field: {
      ...A_FIELD,
      at: new Date(`2026-11-20T${time}Z`),
      stations: [{ ...A_STATION_NOW, trouble: null, ...state }],
    },
    marks: [],
  })
const shown = (time: string, state: Partial<StationNow> = {}) =>
  tonightPage(VISITOR, { ...A_TONIGHT_PAGE, line: lineAt(time, state) })

describe('the visitors’ page', () => {
  it('says in plain words what is at a telescope, how long its line is, and what comes next', () => {
    expect(page.stations[0]).toMatchObject({
      name: 'By the oak',
      kind: 'A telescope',
      thing: 'Great cluster in Hercules',
      story: ['A round, grainy glow.'],
      second: ['Ein runder Nebel.'],
      line: 'About 10 minutes in line.',
      until: 'Here until 19:30.',
      next: 'Next, at 19:30: Great cluster in Hercules, close up.',
      ticks: [{ key: 'm13', name: 'Great cluster in Hercules', tick: 'I have seen: Great cluster in Hercules' }],
    })
  })

  it('tells of a thing without a story what kind it is', () => {
    const { stations } = tonightPage(VISITOR, { ...A_TONIGHT_PAGE, names: UNTOLD })
    expect(stations[0]?.story).toEqual([
      'A ball of very many old stars. It looks like a round glow with a grainy edge.',
    ])
  })

  it('shows the stations that are no telescope as well, with something to tick where there is', () => {
    expect(page.stations.map(({ kind, ticks }) => [kind, ticks.length])).toEqual([
      ['A telescope', 1],
      ['A guide who shows you the sky without a telescope', 1],
      ['Binoculars to look through', 1],
      ['A screen with pictures', 1],
      ['People who answer any question', 0],
    ])
    expect(page.stations.slice(1).map(({ line, until }) => [line, until])).toEqual(Array(4).fill([null, null]))
  })

  it('sends people first where they still get a look', () => {
    expect(page.first).toEqual([
      {
        targetKey: 'm13',
        href: '#station-station-1',
        text: 'By the oak: Great cluster in Hercules (a ball of many thousand stars), only until 19:30. About 10 minutes in line.',
      },
    ])
    const closed = shown('18:20:00')
    expect(closed.first).toEqual([])
    expect(closed.stations[0]?.line).toBe('The line is closed, so that all who stand in it get a look before 19:30.')
  })

  it('says what is wrong where nobody can look, and sends nobody there', () => {
    const cloudy = shown('17:45:00', { trouble: 'cloud' })
    expect(cloudy.first).toEqual([])
    expect(cloudy.stations[0]?.line).toBe('Clouds are in the way just now.')
    expect(shown('17:45:00', { showing: null }).stations[0]).toMatchObject({ thing: null, ticks: [], line: null })
  })

  it('says when we open, and that we are closed', () => {
    expect(shown('17:00:00').lead).toContain('We open at 18:30.')
    expect(page.lead).toContain('We close at 21:30.')
    expect(shown('20:30:00').lead).toContain('We are closed for tonight.')
  })

  it('warns of the Sun by day alone, and always of lasers and white light', () => {
    const care = (isSunUp: boolean) => tonightPage(VISITOR, { ...A_TONIGHT_PAGE, isSunUp }).care
    expect(care(true)[0]).toContain('Never look at the Sun')
    expect(care(false)).toEqual(care(true).slice(1))
    expect(care(false).join(' ')).toMatch(/laser.*white light.*cables.*legs/)
  })

  it('offers the other look and every other language, and keeps one when it changes the other', () => {
    expect(page.links).toEqual([
      { href: '?look=day&second=it', text: 'Also in Italian' },
      { href: '?look=day', text: 'In one language only' },
      { href: '?look=lamp&second=de', text: 'Red lamp look' },
    ])
  })
})

describe('who a station suits', () => {
  const [oak] = A_NIGHT.stations
  const texts = (more: object, altitudeDeg: number | null = 20) =>
    oak && comfortTexts(ENGLISH, { ...oak, telescope: { ...A_TELESCOPE, ...more } }, { setups: [], altitudeDeg })

  it('is said by the height of the eyepiece while the thing stands there', () => {
    expect(texts({})).toEqual(['Children can reach it', 'You can sit here'])
    expect(texts({}, 80)).toEqual([])
    expect(texts({ chairReach: 'no' })).toEqual(['Children can reach it'])
  })

  it('is not guessed where the thing is not known or down', () => {
    expect([texts({}, null), texts({}, -2)]).toEqual([[], []])
  })

  it('is the host’s word for a station of children', () => {
    const glass = A_MIXED_NIGHT.stations.find(({ id }) => id === 'glass')
    expect(glass && comfortTexts(ENGLISH, glass, { setups: [], altitudeDeg: null })).toEqual(['Good for children'])
  })
})

describe('its address', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await testApp()
  })
  afterAll(() => service.app.close())
  const get = (url: string, cookie = '') => service.app.inject(asVisitor({ url, headers: { cookie } }))

  it('is open to everyone without a session, and knows no other night', async () => {
    expect((await get('/tonight/night-1')).body).toContain('<title>tonight</title>')
    expect((await get('/tonight/night-9')).statusCode).toBe(404)
  })

  it('keeps the look for itself, and takes any language for one that is not there', async () => {
    const answer = await get('/tonight/night-1?look=lamp')
    expect(answer.headers['set-cookie']).toContain('look=lamp; Max-Age=43200; Path=/tonight;')
    expect((await get('/tonight/night-1?second=xx-nonsense')).statusCode).toBe(200)
  })

  it('is made once for hundreds of phones that ask at the same time, and anew for the next act', async () => {
    let made = 0
    const { desk } = service
    const beside: typeof desk.beside = (...asked) => {
      made++
      return desk.beside(...asked)
    }
    const changes = () => desk.marks.since('night-1', 0).length
    const other = await testApp({ desk: { ...desk, beside, changes } })
    const ask = (query = '') => other.app.inject(asVisitor({ url: `/tonight/night-1${query}` }))
    await Promise.all(Array.from({ length: 200 }, () => ask()))
    expect(made).toBe(1)
    await ask('?look=lamp')
    expect(made).toBe(2)
    const draft = {
      key: 'a-new-act',
      kind: 'counted',
      stationId: null,
      payload: { adults: 1, children: 0 },
      secondsAgo: 0,
    }
    desk.marks.record('night-1', [draft], 'host', 'host')
    await ask()
    expect(made).toBe(3)
    await other.app.close()
  })
})
