import Fastify from 'fastify'
import { describe, expect, it } from 'vitest'
import { type ObjectPage, objectPage } from '../../server/web/pages/object.ts'
import { decText, raText } from '../../server/web/pages/sky-place.ts'
import { pageWriter, readViews } from '../../server/web/views.ts'
import { A_SITE } from '../support/field-data.ts'
import { ENGLISH, HOST, VISITOR } from '../support/page-data.ts'
import { A_BARE_STAR, A_THING } from '../support/thing-pages.ts'

describe('one thing', () => {
  const page = objectPage(HOST, A_THING)
  const text = ({ known }: ObjectPage) => known.join(' ')

  it('tells its story, what it is good for, and what must be known', () => {
    expect(page).toMatchObject({
      name: "Bode's Galaxy",
      kind: 'Galaxy in Ursa Major',
      others: 'Also called M81, NGC 3031',
    })
    expect(page.lead).toBe('A round, grainy glow.')
    expect(page.parts.map(({ label }) => label)).toEqual(['Look for', 'How to look', 'To compare', 'If they ask'])
    expect(page.why).toEqual({ label: 'Why show it:', text: 'invented' })
    expect(page.note).toBe('It is the brighter of two.')
  })

  it('reckons how large, how far back and how bright it is', () => {
    expect(text(page)).toContain('About 12 million light-years away.')
    expect(text(page)).toContain('Its light set out about 12 million years ago')
    expect(text(page)).toContain('about 94,000 light-years across')
    expect(text(page)).toContain('about 13 thousand million years old')
    expect(text(page)).toMatch(/Its glow is fainter than the sky itself at Sheep meadow.*: 22\.0 magnitudes/)
  })

  it('says what the delight is in words, and never as a number', () => {
    const said = JSON.stringify({ ...page, sheet: null, drawing: null })
    expect(said).not.toMatch(/0\.37|37 %|appeal/i)
  })

  it('lists every value with its unit and its source as it is written', () => {
    const row = (name: string) => page.values?.rows.find((found) => found.name === name)
    expect(row('Right ascension (J2000)')).toEqual({
      name: 'Right ascension (J2000)',
      value: '9 h 55.6 min',
      source: 'RC3',
    })
    expect(row('Magnitude')).toMatchObject({ value: '6.9 (V)', source: 'RC3, not checked' })
    expect(row('Long side that an eye sees')).toMatchObject({ value: '27′', source: 'no source is written down' })
    expect(row('Separation')).toBeUndefined()
    expect(page.values?.counts).toBe('From published tables: 2. Not checked: 1. Computed: 0. Our own judgement: 2.')
  })

  it('leads to its neighbours, to the nights to come, and the host to words of their own', () => {
    expect(page.near[0]).toEqual({
      href: '/objects/m82',
      text: 'M82',
      kind: 'Galaxy',
      where: '36 arcminutes to the north',
    })
    expect(page.nights.map(({ href }) => href)).toEqual(['/nights/night-1/objects/m81'])
    const later = objectPage({ ...HOST, now: new Date('2026-11-21T12:00:00Z') }, A_THING)
    expect(later.nights).toEqual([])
    expect(page.links.map(({ href }) => href)).toContain('/objects/m81/words')
    expect(objectPage(VISITOR, A_THING).links.map(({ href }) => href)).not.toContain('/objects/m81/words')
  })

  it('marks the months, and offers another site only where there is one', () => {
    expect(page.months.filter(({ isOn }) => isOn).map((month) => month.text)).toEqual([
      'Apr',
      'May',
      'Jun',
      'Jul',
      'Aug',
      'Sep',
    ])
    expect(page.whence[0]?.options.map(({ text: site }) => site)).toEqual(['Sheep meadow', 'Hill'])
    expect(objectPage(HOST, { ...A_THING, places: [A_SITE] }).whence).toEqual([])
  })

  it('is short where it is a star of the catalogue: its names, place, light and colour', () => {
    const star = objectPage(VISITOR, A_BARE_STAR)
    expect(star).toMatchObject({
      name: 'Beta Nowhere',
      others: 'Also called HIP 2',
      values: null,
      why: null,
      known: [],
    })
    expect(star.lead).toContain('not on the outreach list')
    expect(star.parts).toEqual([
      { label: 'Magnitude', text: '5.2: bare eyes reach 6 in a dark place.' },
      { label: 'Colour', text: 'orange' },
      { label: 'Place (J2000)', text: '16 h 40.0 min, 36° 30′ south' },
    ])
    expect(star.season).toBe('It never rises here.')
  })
})

describe('places of the sky in words', () => {
  it('carry full minutes over', () => {
    expect(raText(ENGLISH, 359.9999)).toBe('0 h 0.0 min')
    expect(raText(ENGLISH, 83.822)).toBe('5 h 35.3 min')
    expect(decText(ENGLISH, -5.9999)).toBe('6° 0′ south')
    expect(decText(ENGLISH, 0.5)).toBe('0° 30′ north')
  })
})

describe('for those who listen to the page', () => {
  it('the picture has its words, the months are said in a sentence, and each value has its head', async () => {
    const app = Fastify()
    await readViews(app)
    const write = pageWriter({ path: (name) => `/assets/${name}` })
    const thing = await write(app, 'object', objectPage(HOST, A_THING))
    expect(thing).toMatch(/<svg[^>]*role="img"[^>]*><title>[^<]+<\/title><desc>On the sky: [^<]+<\/desc>/)
    expect(thing).toMatch(/<ol class="months" aria-hidden="true">/)
    expect(thing.match(/<th scope="row">/g)?.length).toBeGreaterThan(5)
    await app.close()
  })
})
