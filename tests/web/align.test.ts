import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readWordTables } from '../../server/web/language.ts'
import { alignPage } from '../../server/web/pages/align.ts'
import { alignPairText } from '../../server/web/pages/align-text.ts'
import { fieldRowPage } from '../../server/web/pages/field-row.ts'
import { nightNav } from '../../server/web/pages/night-links.ts'
import { setUpPage } from '../../server/web/pages/set-up.ts'
import { createWords } from '../../server/words/words.ts'
import { A_LIGHT_SET_UP, A_PAIR, A_SET_UP } from '../support/alignment-data.ts'
import { A_NIGHT, A_TELESCOPE } from '../support/field-data.ts'
import { FIELD } from '../support/field-subject.ts'
import { GERMAN, HOST, VISITOR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { A_LIGHT_ALIGN, AN_ALIGN } from '../support/set-up-pages.ts'
import { asVisitor, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const get = (url: string) => service.app.inject(asVisitor({ url }))
const [first, second] = A_PAIR.stars

describe('the page of stars to align on', () => {
  it('says of each star its name, how to say it, where it stands, its colour and what could be taken for it', () => {
    const [pair] = alignPage(HOST, AN_ALIGN).pairs
    expect(pair?.stars).toEqual([
      {
        name: 'Vega',
        said: 'say VEE-ga',
        direction: 'west-north-west, 4 fists up',
        colour: 'white',
        lookAlike: ['Nothing near it could be taken for it.'],
      },
      {
        name: 'Capella',
        said: 'say ka-PEL-a',
        direction: 'north-east, 3 fists up',
        colour: 'yellow',
        lookAlike: [
          'Take care: Jupiter stands near and could be taken for it.',
          'Jupiter is lower than Capella and to the left.',
        ],
      },
    ])
  })

  it('says a star as German has it: by its German name, and that name aloud', () => {
    const names = new Map([
      ['Vega', 'Wega'],
      ['Arcturus', 'Arktur'],
    ])
    const { settings } = GERMAN
    const words = createWords(readWordTables().de ?? {}, settings, names)
    const arcturus = { ...second, name: 'Arcturus', lookAlike: null }
    const { stars, why } = alignPairText(words, { ...A_PAIR, stars: [first, arcturus] }, 0)
    expect(stars.map(({ name, said }) => [name, said])).toEqual([
      ['Wega', 'sprich WE-ga'],
      ['Arktur', 'sprich ark-TUR'],
    ])
    expect(stars[0]?.direction).toBe('Westnordwest, 4 Fäuste hoch')
    expect(why[0]).toBe('Beide gehören zu den hellsten Sternen am Himmel.')
  })

  it('says why, first how unmistakable the two are, then the error that is left, then the proof', () => {
    const [pair] = alignPage(HOST, AN_ALIGN).pairs
    expect(pair?.why).toEqual([
      'Both are among the brightest stars of the sky.',
      'Nothing near Vega could be taken for it; the other has a look-alike.',
    ])
    expect(pair?.error).toBe('It leaves tonight’s targets within a quarter of a degree.')
    expect(pair?.proof).toMatch(/^Turn to the Moon: south, 3½ fists up\./)
    const bare = { ...A_PAIR, proof: null, azimuthApartDeg: 60, meanErrorFactor: Number.POSITIVE_INFINITY }
    const [other] = alignPage(HOST, { ...AN_ALIGN, pairs: [bare] }).pairs
    expect(other?.why.at(-1)).toContain('less than a quarter turn apart')
    expect(other?.error).toContain('more than two degrees')
    expect(other?.proof).toMatch(/^No third light/)
  })

  it('names the least round error that holds for nineteen mounts in twenty', () => {
    const errorOf = (meanErrorFactor: number) =>
      alignPage(HOST, { ...AN_ALIGN, pairs: [{ ...A_PAIR, meanErrorFactor }] }).pairs[0]?.error.replace(
        /^.*targets /,
        '',
      )
    expect([1.49, 1.6, 3.1, 6.1].map(errorOf)).toEqual([
      'within a quarter of a degree.',
      'within half a degree.',
      'within one degree.',
      'within two degrees.',
    ])
  })

  it('puts the rule of the Sun first and says why there is nothing', () => {
    const page = alignPage(HOST, A_LIGHT_ALIGN)
    expect(page.sun).toBe('The Sun first: it does not set tonight, so no tube ever points near it.')
    expect(page.note).toMatch(/^The Sun does not set tonight, so no star comes out/)
    expect([page.pairs, page.times]).toEqual([[], []])
    const note = (more: object) => alignPage(HOST, { ...A_LIGHT_ALIGN, sun: 'sets', ...more }).note
    const fromAt = new Date('2026-11-20T16:25:00Z')
    expect(note({ cause: 'bright', fromAt })).toBe('Still too bright: from 17:25 two stars can be centred.')
    expect(note({ cause: 'bright' })).toContain('no darker before the Sun rises')
    expect(note({ cause: 'place', fromAt })).toContain('from 17:25 there are two')
    expect(note({ cause: 'sun', fromAt })).toContain('From 17:25')
    expect(note({ cause: null })).toBeNull()
  })

  it('has a button for every quarter hour, the one that is shown marked', () => {
    expect(alignPage(HOST, AN_ALIGN).times).toEqual([
      { value: '17:30', text: '17:30', isHere: true },
      { value: '17:45', text: '17:45', isHere: false },
    ])
  })

  it('tells a row that is pushed by hand that it needs none of this', () => {
    expect(alignPage(HOST, AN_ALIGN).handNote).toContain('pushed by hand')
    const telescope = { ...A_TELESCOPE, mount: 'equatorial' as const }
    const stations = A_NIGHT.stations.map((station) => ({ ...station, telescope }))
    expect(alignPage(HOST, { ...AN_ALIGN, night: { ...A_NIGHT, stations } }).handNote).toBeNull()
  })

  it('is had by anyone, by day or by the lamp, for a time of the clocks', async () => {
    const answer = await get('/nights/night-1/align?at=17:45&look=lamp')
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toContain('data-look="lamp"')
    expect(answer.body).toMatch(/<h1>Stars to align on <span class="numeral">17:45</)
    for (const { name } of [first, second]) expect(answer.body).toContain(`<p class="target">${name} `)
    expect((await get('/nights/night-1/align')).body).toContain('data-look="day"')
    expect((await get('/nights/night-1/align?at=25:00')).statusCode).toBe(422)
    expect((await get('/nights/none/align')).statusCode).toBe(404)
  })
})

describe('the page of setting up', () => {
  const at = (text: string) => ({ ...HOST, now: new Date(`2026-11-20T${text}:00Z`) })
  const subject = { night: A_NIGHT, setUp: A_SET_UP, look: 'day' } as const

  it('says what holds now, what is next and how long until then', () => {
    const page = setUpPage(at('15:40'), subject)
    expect(page.now?.text).toBe('The Sun has set. Only now do caps come off.')
    expect(page.next).toEqual({
      time: '17:05',
      text: 'Align on two stars. Say date, time and place aloud.',
      wait: 'in 25 minutes',
    })
    expect(page.steps.filter(({ isNow }) => isNow)).toHaveLength(1)
    expect(page.steps.filter(({ isPast }) => isPast)).toHaveLength(4)
  })

  it('begins before the first step and ends after the last', () => {
    const early = setUpPage({ ...HOST, now: new Date('2026-11-14T16:00:00Z') }, subject)
    expect([early.now, early.next?.wait, early.over]).toEqual([null, 'in about 6 days', null])
    const late = setUpPage(at('23:00'), subject)
    expect([late.now, late.next, late.over]).toEqual([null, null, 'The evening is over.'])
  })

  it('says why nothing is aligned where no star comes out', () => {
    const page = setUpPage(at('15:00'), { ...subject, setUp: A_LIGHT_SET_UP })
    expect(page.sun).toContain('does not set tonight')
    expect(page.noStars).toContain('so no star comes out')
  })

  it('is had by anyone, by day or by the lamp', async () => {
    const answer = await get('/nights/night-1/set-up?look=lamp')
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toContain('data-look="lamp"')
    expect(answer.body).toContain('href="/nights/night-1/align?look&#x3D;lamp"')
  })

  it('is linked from the pages of the night, and from the row until the gate opens', () => {
    const groups = (hasTour: boolean) => nightNav(VISITOR, { night: A_NIGHT, hasTour, here: null }).groups
    const links = (hasTour: boolean) => groups(hasTour).flatMap((group) => group.links.map(({ href }) => href))
    for (const hasTour of [true, false]) {
      expect(links(hasTour)).toEqual(expect.arrayContaining(['/nights/night-1/set-up', '/nights/night-1/align']))
    }
    const ways = (time: string) => {
      const field = { ...FIELD.field, at: new Date(`2026-11-20T${time}:00Z`) }
      return fieldRowPage(VISITOR, { ...FIELD, field, look: 'lamp' }).ways.map(({ href }) => href)
    }
    expect(ways('17:00')[0]).toBe('/nights/night-1/set-up?look=lamp')
    expect(ways('18:00').join()).not.toContain('set-up')
    expect(ways('18:00')).toContain('/nights/night-1/align?look=lamp')
  })
})
