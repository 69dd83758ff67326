import Fastify from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { listHref, objectsPage } from '../../server/web/pages/objects.ts'
import { monthsText, seasonText, seenText } from '../../server/web/pages/season-text.ts'
import { pageWriter, readViews } from '../../server/web/views.ts'
import { A_LIST, A_SEASONAL, ONE_LISTED } from '../support/fake-things.ts'
import { A_SITE, AN_OBJECT } from '../support/field-data.ts'
import { ENGLISH, HOST, VISITOR } from '../support/page-data.ts'
import { showObject } from '../support/show-objects.ts'
import { ANY_THING, THE_LIST } from '../support/thing-pages.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())
const get = (url: string, as = asVisitor) => service.app.inject(as({ url }))

describe('the addresses', () => {
  it('are open to everyone', async () => {
    for (const url of ['/objects', '/objects/m13', '/objects?kind=&constellation=&evening=&site=&month=&q=']) {
      for (const as of [asVisitor, asHost]) expect((await get(url, as)).statusCode).toBe(200)
    }
  })

  it('lead from any other name to the one key', async () => {
    const { statusCode, headers } = await get('/objects/ngc6205')
    expect([statusCode, headers.location]).toEqual([308, '/objects/m13'])
  })

  it.each(['/objects/none', '/objects?site=none', '/objects/m13?site=none'])('say 404 to %s', async (url) => {
    const answer = await get(url)
    expect(answer.statusCode).toBe(404)
    expect(answer.headers['content-type']).toContain('text/html')
  })

  it.each(['kind=teapot', 'evening=13', 'month=2026-00', 'constellation=orion', 'good=maybe', 'page=0'])(
    'refuse %s',
    async (wrong) => {
      expect((await get(`/objects?${wrong}`)).statusCode).toBe(422)
      expect((await get(`/api/objects?${wrong}`)).statusCode).toBe(422)
    },
  )

  it('answer the same as data', async () => {
    const { objects, ...list } = (await get('/api/objects?good=true&limit=5')).json()
    expect(list).toMatchObject({ total: 2, page: 1, pages: 1, siteId: A_SITE.id, month: '2026-11', isDark: true })
    expect(objects[0]).toMatchObject({
      key: 'm13',
      isGood: true,
      season: { code: 'months', months: [4, 5, 6, 7, 8, 9] },
      clear: { untilAtWall: '19:48', after: { code: 'skyline', name: 'oak' } },
    })
    expect(objects[1]).toEqual({ ...A_LIST.things[1]?.hit })
    const one = (await get('/api/objects/m13')).json()
    expect(one).toMatchObject({ object: { key: 'm13' }, isOutreach: true, chance: 0.8, near: [], month: '2026-11' })
    expect(one.sources).toEqual({ published: 1, 'from memory': 2, computed: 0, 'our judgement': 1 })
  })
})

describe('months in words', () => {
  it('run on over the turn of the year, and are told apart where they do not', () => {
    expect(monthsText(ENGLISH, [1, 2, 3, 12])).toBe('December to March')
    expect(monthsText(ENGLISH, [5])).toBe('May')
    expect(monthsText(ENGLISH, [1, 3, 4, 5, 11])).toBe('January, March to May, and November')
    expect(monthsText(ENGLISH, ONE_TO_TWELVE)).toBe('every month')
    expect(monthsText(ENGLISH, [])).toBe('')
  })

  it('name no season of one half of the Earth', () => {
    const said = ['months', 'never-rises', 'stays-low', 'not-soon', 'moon', 'moves', 'any', 'shower'] as const
    const texts = said.map((code) =>
      seasonText(ENGLISH, { ...A_SEASONAL.season, code, peakAt: new Date('2026-12-14T12:00:00Z') }, AN_OBJECT, A_SITE),
    )
    expect(texts.every((text) => text.length > 10 && !/spring|summer|autumn|winter/i.test(text))).toBe(true)
    expect(texts[1]).toBe('It never rises here.')
    expect(texts.at(-1)).toBe('Most meteors fall around 14 December.')
  })

  it('say of a planet that they are those of the year to come', () => {
    const text = (kind: 'planet' | 'galaxy') => seasonText(ENGLISH, A_SEASONAL.season, { kind }, A_SITE)
    expect(text('planet')).toBe('In the evenings of April to September, in the year to come.')
    expect(text('galaxy')).toBe('In the evenings of April to September.')
  })
})

const ONE_TO_TWELVE = Array.from({ length: 12 }, (_, i) => i + 1)

describe('what is seen, in words', () => {
  const { clear } = A_SEASONAL
  const seen = (given: Partial<typeof A_SEASONAL>) => seenText(HOST, ONE_LISTED, AN_OBJECT, { ...A_SEASONAL, ...given })

  it('names the chance, the telescope and what ends it, to ten minutes', () => {
    expect(seen({})).toBe('Most people see it: Old eight inch. Until about 19:40: oak.')
    const before = { code: 'low' } as const
    expect(seen({ clear: clear && { ...clear, before, after: null } })).toBe(
      'Most people see it: Old eight inch. From about 17:50.',
    )
  })

  it('says when nothing can be seen, and nothing of what is no thing for telescopes', () => {
    expect(seen({ clear: null })).toBe('Not clear for an hour in these evenings.')
    expect(seen({ chance: 0.01 })).toContain('Too faint from here')
    expect(seenText(HOST, ONE_LISTED, showObject({ kind: 'bare-eye' }), A_SEASONAL)).toBeNull()
    expect(seenText(HOST, { ...ONE_LISTED, telescopes: [] }, AN_OBJECT, A_SEASONAL)).toContain('a telescope of 150 mm')
  })
})

describe('the list', () => {
  const [full, empty] = THE_LIST

  it('keeps what was chosen in the form, and in the links to its other pages', () => {
    expect(full.searchField.value).toBe('her')
    expect(full.filters.map(({ value }) => value)).toEqual(['globular', '', ''])
    expect(full.isFiltered).toBe(true)
    expect([full.previous?.href, full.next?.href]).toEqual([
      '/objects?q=her&kind=globular',
      '/objects?q=her&kind=globular&page=3',
    ])
    expect(listHref({ ...ANY_THING, siteId: 'site-1', month: '2027-01', evening: 3, isGoodOnly: true }, 1)).toBe(
      '/objects?evening=3&site=site-1&month=2027-01&good=true',
    )
    expect(listHref(ANY_THING, 1)).toBe('/objects')
  })

  it('offers a year of months from this one, and the constellations that hold something', () => {
    const [site, month] = full.whence
    expect(site?.options.map(({ text }) => text)).toEqual(['Sheep meadow'])
    expect(month?.options).toHaveLength(12)
    expect(month?.options[0]).toEqual({ value: '2026-11', text: 'November 2026', isChosen: true })
    expect(full.filters[1]?.options.map(({ text }) => text)).toEqual(['any', 'Hercules', 'Virgo'])
  })

  it('says of each thing what it is, why, when and how well it is seen', () => {
    expect(full.things[0]).toMatchObject({
      href: '/objects/m13',
      kind: 'Globular star cluster in Hercules',
      why: 'a ball of stars',
      seen: 'Most people see it: Old eight inch. Until about 19:40: oak.',
      isGood: true,
    })
    expect(full.things[1]).toMatchObject({ href: '/objects/hip2', why: null, season: null, seen: null, isGood: false })
    expect(full.notDark).toContain('only the Moon and planets are good')
  })

  it('says so when nothing answers, and when nobody wrote a site or a telescope yet', () => {
    expect(empty.emptyText).toContain('Nothing answers to zzz')
    expect(empty.standing).toContain('Somewhere in the north, at 45 degrees')
    expect(empty.standing).toContain('a telescope of 150 mm')
    expect(
      objectsPage(VISITOR, {
        query: ANY_THING,
        list: { ...A_LIST, things: [] },
        places: [],
        pictureOf,
        thisMonth: '2026-11',
      }).emptyText,
    ).toContain('Nothing on the list')
  })
})

const pictureOf = () => ({ thing: AN_OBJECT, stars: [], bv: null })

describe('for those who listen to a page', () => {
  it('each field has its label, and a little picture keeps silent', async () => {
    const app = Fastify()
    await readViews(app)
    const write = pageWriter({ path: (name) => `/assets/${name}` })
    const list = await write(app, 'objects', THE_LIST[0])
    for (const [, id] of list.matchAll(/<(?:input|select) id="([^"]+)"/g)) expect(list).toContain(`for="${id}"`)
    expect(list.match(/<svg/g)).toHaveLength(2)
    expect(list.match(/<svg[^>]*aria-hidden="true"/g)).toHaveLength(2)
    expect(list).toMatch(/role="search"/)
    await app.close()
  })
})
