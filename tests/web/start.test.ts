import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import type { PlaceStore } from '../../db/places.ts'
import { type StartAsked, type StartDesk, startDesk } from '../../server/desk/start.ts'
import { openStores, type Stores } from '../../server/desk/stores.ts'
import { readStart } from '../../server/web/routes/start-draft.ts'
import { A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { HOST as HOST_VIEWER } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { TWO_TOWNS } from '../support/start-data.ts'
import { asHost, formPost, type TestApp, testApp } from '../support/web.ts'

const LINES = { town: 'Onetown', date: '17 December 2026', kit: 'two 130 mm telescopes' }

describe('the three lines as a form', () => {
  let service: TestApp
  let made: StartAsked[] = []
  beforeAll(async () => {
    const { desk } = await testApp()
    const start: StartDesk = {
      ...desk.start,
      make: async (asked) => {
        made.push(asked)
        return desk.start.make(asked)
      },
    }
    service = await pagedApp({
      desk: { ...desk, start },
    })
  })
  beforeEach(() => {
    made = []
  })
  afterAll(() => service.app.close())

  const send = (fields: Record<string, string>) => service.app.inject(asHost(formPost('/start', fields)))
  const plain = (html: string) => html.replaceAll('&quot;', '"').replaceAll('&#x27;', "'")

  it.each([
    ['no town', { town: '' }, 'Write a town.'],
    ['an unknown town', { town: 'Xqzt' }, 'No town “Xqzt” is in the list. Try the next larger one'],
    ['a town with a slip', { town: 'Onetwn' }, 'Nearest spellings: Onetown.'],
    ['a town of many letters', { town: 'x'.repeat(81) }, 'Write at most 80 letters.'],
    ['a town of two places', { town: 'Anytown' }, 'There are several called “Anytown”.'],
    ['a town and the place of another', { town: 'Anytown', place: '1,1' }, 'There are several called “Anytown”.'],
    ['no date', { date: ' ' }, 'Write a date, such as 17 December.'],
    ['a date that may be two', { date: '7/8/2027' }, 'Is it Saturday 7 August 2027 or Thursday 8 July 2027?'],
    ['no such day', { date: '31 November' }, 'There is no such day.'],
    ['an unknown word', { kit: 'two 130 mm pipes' }, '“pipes” is not understood here.'],
    ['no width', { kit: 'two telescopes' }, 'How wide is “two telescopes”?'],
    [
      'too narrow',
      { kit: 'two 5 mm telescopes' },
      '“two 5\u00a0mm telescopes”: a telescope is 20 to 1500\u00a0mm wide.',
    ],
    ['too many', { kit: '13 x 130 mm' }, 'These are 13 telescopes; a row has 12 at most.'],
    ['markup', { kit: '<b>two</b> 130 mm' }, 'is not understood here.'],
    ['nothing at all', { town: '', date: '', kit: '' }, 'Say how many telescopes you have'],
  ])(
    'comes back with %s, all as it was typed, and nothing is made',
    async (_what, wrong: Partial<typeof LINES>, sentence) => {
      const typed = { ...LINES, ...wrong }
      const { statusCode, body } = await send(typed)
      expect(statusCode).toBe(422)
      expect(plain(body)).toContain(sentence)
      for (const [name, value] of Object.entries(LINES)) {
        const [, shown] = new RegExp(` name="${name}"[^>]* value="([^"]*)"`).exec(body) ?? []
        expect(shown, name).toBe(
          (typed[name as keyof typeof LINES] ?? value).replaceAll('<', '&lt;').replaceAll('>', '&gt;'),
        )
      }
      expect(made).toEqual([])
    },
  )

  it('takes the place that was chosen of two', async () => {
    const shown = (await send({ ...LINES, town: 'Anytown' })).body
    expect(shown.match(/type="radio" name="place"/g)).toHaveLength(2)
    expect((await send({ ...LINES, town: 'Anytown', place: '48,12' })).statusCode).toBe(303)
    expect(made.map(({ place }) => place)).toEqual([TWO_TOWNS[1]])
  })

  it('makes one evening of one form, however often it is sent, and leads to what was assumed', async () => {
    const answers = await Promise.all([send({ ...LINES, key: 'one' }), send({ ...LINES, key: 'one' })])
    expect(answers.map(({ statusCode, headers }) => [statusCode, headers.location])).toEqual([
      [303, '/nights/night-1/start'],
      [303, '/nights/night-1/start'],
    ])
    expect(made).toHaveLength(1)
    await send({ ...LINES, key: 'another' })
    expect(made).toHaveLength(2)
    expect((await service.app.inject(asHost({ url: '/nights/night-1/start' }))).statusCode).toBe(200)
  })
})

describe('an evening of three lines', () => {
  const NO_PLACES: PlaceStore = { named: () => [], near: () => [], search: () => [] }
  const [town] = TWO_TOWNS
  let stores: Stores
  let close = (): unknown => undefined
  let kept = 0
  beforeEach(() => {
    const db = openDatabase(':memory:')
    migrate(db)
    stores = openStores(db)
    close = () => db.close()
    kept = 0
  })
  afterEach(() => close())

  function desk(keep: () => void, places = NO_PLACES, build = async () => {}) {
    const firstTour = async () => {
      await build()
      return { keep }
    }
    const clock = { now: () => HOST_VIEWER.now, isRehearsal: true, speed: 1 }
    return startDesk({ ...stores, places, clock, factorOf: () => undefined, firstTour })
  }
  const count = () => ({
    sites: stores.sites.all().length,
    telescopes: stores.telescopes.all().length,
    nights: stores.nights.all().length,
  })
  function asked(lines: Partial<typeof LINES> = {}): StartAsked {
    const read = readStart(
      HOST_VIEWER,
      { ...desk(() => {}), places: () => (town ? [town] : []) },
      { ...LINES, ...lines },
    )
    if (!read.asked) throw new Error(JSON.stringify(read.problems))
    return read.asked
  }

  it('keeps site, telescopes and night together with the programme', async () => {
    const night = await desk(() => {
      kept += 1
    }).make(asked())
    expect([count(), kept]).toEqual([{ sites: 1, telescopes: 2, nights: 1 }, 1])
    expect(stores.nights.find(night.id)).toEqual(night)
    expect(night.stations.map(({ name }) => name)).toEqual(['130 mm telescope 1', '130 mm telescope 2'])
    expect(night.site).toMatchObject({ name: 'Anytown', zone: 'Europe/Berlin', skyMag: 19.2, horizon: [] })
  })

  it('leaves nothing behind when the programme cannot be built, or cannot be kept', async () => {
    const fail = () => {
      throw new Error('full')
    }
    await expect(
      desk(
        () => {},
        NO_PLACES,
        async () => fail(),
      ).make(asked()),
    ).rejects.toThrow('full')
    await expect(desk(fail).make(asked())).rejects.toThrow('full')
    await expect(desk(() => {}).make(asked({ date: '17 December 2025' }))).rejects.toMatchObject({
      problems: [{ field: 'date', key: 'problem.night-past' }],
    })
    expect(count()).toEqual({ sites: 0, telescopes: 0, nights: 0 })
  })

  it('takes the site and the telescopes that are there and free, and makes no twins', async () => {
    stores.telescopes.add({ ...A_TELESCOPE, name: 'Old one' })
    stores.telescopes.add({ ...A_TELESCOPE, id: 'away', isPutAway: true, tubes: [], eyepieces: [] })
    const start = desk(() => {})
    const first = await start.make(asked({ kit: 'an 8 inch and a 130 mm' }))
    expect(first.stations.map(({ name }) => name)).toEqual(['Old one', '130 mm telescope'])
    const same = await start.make(asked({ kit: 'one 203 mm' }))
    expect(same.stations.map(({ name }) => name)).toEqual(['203 mm telescope'])
    const other = await start.make(asked({ kit: 'two 203 mm', date: '18 December 2026' }))
    expect(other.stations.map(({ name }) => name)).toEqual(['203 mm telescope', 'Old one'])
    expect(count()).toEqual({ sites: 1, telescopes: 4, nights: 3 })
  })

  it("knows the host's own site by its name before any town", () => {
    stores.sites.add(A_SITE)
    const places: PlaceStore = { ...NO_PLACES, search: () => TWO_TOWNS }
    expect(
      desk(() => {}, places)
        .places('sheep  MEADOW')
        .map(({ siteId }) => siteId),
    ).toEqual([A_SITE.id])
    expect(desk(() => {}, places).places('Anytown')).toHaveLength(2)
  })
})
