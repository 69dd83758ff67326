import { describe, expect, it } from 'vitest'
import type { FieldLayout } from '../../server/drawings/field.ts'
import { svgElement } from '../../server/drawings/svg.ts'
import { FACE_PARTS, faceWords, wordCount } from '../../server/tours/story-parts.ts'
import type { ShowObject, Story } from '../../server/tours/target.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { CARD_SIZES, type CardSize } from '../../server/web/pages/card-fit.ts'
import { type CardSide, type CardsSubject, cards } from '../../server/web/pages/cards.ts'
import { papersPage } from '../../server/web/pages/papers.ts'
import type { SizedPicture } from '../../server/web/pages/print-pictures.ts'
import type { Names } from '../../server/web/pages/say.ts'
import { AN_OBJECT } from '../support/field-data.ts'
import { A_STORY, HOST, NAMES, ONE_LANGUAGE, TOUR, VISITOR } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

const [STOP] = TOUR.stops
const KEYS = ['one', 'two', 'three', 'four', 'five', 'six']
const toured = (keys: readonly string[]) => ({
  ...TOUR,
  stops: keys.flatMap((targetKey) => (STOP ? [{ ...STOP, targetKey }] : [])),
  spares: [],
})
const picture = (heightMm: number, notes: readonly string[] = []): SizedPicture => ({
  svg: svgElement('svg', { viewBox: `0 0 84 ${heightMm}` }),
  notes,
  widthMm: 84,
  heightMm,
  legend: null,
})
const shown = (object: Partial<ShowObject>, story: Partial<Story> = {}): Names => ({
  ...NAMES,
  nameOf: (key) => key,
  show: () => ({ ...AN_OBJECT, sources: { distanceLy: 'Harris 2010' }, ...object }),
  story: () => ({ ...A_STORY, ...story }),
})
const SUBJECT: CardsSubject = {
  ...A_FULL_PRINT,
  tour: toured(['one']),
  isStale: false,
  names: shown({}),
  second: ONE_LANGUAGE,
}
const WAY = 'From Vega go 6 degrees toward 8 o’clock.'
const drawing = (field: number | null, finder: number | null) => ({
  ...A_FULL_PRINT.pictures,
  field: () => (field === null ? null : picture(field)),
  finder: () => (finder === null ? null : picture(finder, [WAY])),
})
const made = (more: Partial<CardsSubject>, size: CardSize = 'four', hasBacks = true) =>
  cards(HOST, { ...SUBJECT, ...more, cards: { size, hasBacks } })
const nameOf = ({ face, back }: CardSide) => face?.name ?? back?.name ?? ''
const namesOn = (more: Partial<CardsSubject>, size: CardSize = 'four', hasBacks = true) =>
  made(more, size, hasBacks).pages.map(({ sides }) => sides.map(nameOf).join(' '))

const words = (count: number, word = 'stars') => `${Array.from({ length: count }, () => word).join(' ')}.`
const SEVENTY = { see: words(14), lookFor: words(14), how: words(14), compare: words(14), answer: words(14) }
const LONG_NAME = 'The great bright double cluster of the sword hand of Perseus'

describe('the sides of cards', () => {
  it('lie mirrored left to right behind their fronts, four to a page', () => {
    const [fronts, backs, ...more] = namesOn({ tour: toured(KEYS), pictures: drawing(47, null) })
    expect([fronts, backs]).toEqual(['one two three four', 'two one four three'])
    expect(more).toEqual(['five six  ', 'six five  '])
  })

  it('follow each other on pages of their own where cards are single', () => {
    expect(namesOn({ tour: toured(['one', 'two']), pictures: drawing(47, null) }, 'a6')).toEqual([
      'one',
      'one',
      'two',
      'two',
    ])
    const formats = (size: CardSize) => made({ pictures: drawing(47, null) }, size).pages.map(({ format }) => format)
    expect(CARD_SIZES.map(formats)).toEqual([
      ['four', 'four'],
      ['a6', 'a6'],
      ['5x3', '5x3'],
      ['6x4', '4x6'],
    ])
  })

  it('are fronts alone where no backs are wanted or nothing is known', () => {
    expect(namesOn({ tour: toured(KEYS) }, 'four', false)).toHaveLength(2)
    expect(made({}, 'four', false).pages[0]?.sides[0]?.face?.distance).toBe('About 23,000 light-years away')
    const unknown = { names: shown({ distanceLy: null }), pictures: drawing(null, null) }
    expect(namesOn(unknown, 'a6')).toEqual(['one'])
  })

  const backOf = (pictures: CardsSubject['pictures'], size: CardSize, more: Partial<CardsSubject> = {}) =>
    made({ pictures, ...more }, size)
      .pages.flatMap(({ sides }) => sides)
      .flatMap(({ back }) => back ?? [])

  it('show behind the words what will be seen, the way there and a fact, on one back', () => {
    for (const size of ['four', 'a6', '6x4'] as const) {
      const [back, ...more] = backOf(drawing(47, 54), size)
      expect(more).toEqual([])
      expect(back?.name).toBe('one')
      expect(back?.pictures).toEqual([picture(47).svg, picture(54).svg])
      expect(back?.told[0]?.text).toBe('About 23,000 light-years away (Harris 2010)')
    }
    const [small] = backOf(drawing(47, 54), '5x3')
    expect(small?.pictures).toEqual([picture(47).svg])
  })

  it('leave out what there is no room for, the least needed first', () => {
    const left = (field: number, finder: number) => {
      const [back] = backOf(drawing(field, finder), 'four')
      return [back?.pictures.length, back?.name, back?.told.map(({ text }) => text.slice(0, 5)), back?.foot !== null]
    }
    expect(left(45, 40)).toEqual([2, 'one', ['About', 'From '], false])
    expect(left(30, 30)).toEqual([2, 'one', ['About', 'From '], true])
    expect(left(50, 57)).toEqual([2, 'one', [], false])
    expect(left(60, 60)).toEqual([2, null, [], false])
    expect(left(60, 62)).toEqual([1, 'one', ['About', 'From '], true])
    expect(left(123, 50)).toEqual([1, 'one', ['About', 'From '], true])
  })

  it('show what is found by eye as large as there is room for with its legend', () => {
    const layoutOn = (wholeMm: number) => {
      const field = (_stop: Stop, layout: FieldLayout) =>
        layout === 'card' ? picture(47) : { ...picture(wholeMm), legend: '1: Copernicus.' }
      const [back] = backOf({ ...drawing(47, 54), field }, 'four', { names: shown({ body: 'moon' }) })
      return back?.pictures
    }
    expect(layoutOn(115)).toEqual([picture(115).svg])
    expect(layoutOn(117)).toEqual([picture(47).svg])
  })

  it('say in a sentence why there is no chart of the way', () => {
    const why = 'No chart of the way: it stands too low at 18:30.'
    const texts = (size: CardSize) =>
      backOf({ ...drawing(47, null), finder: () => why }, size)[0]?.told.map(({ text }) => text)
    for (const size of ['four', 'a6', '6x4'] as const) expect(texts(size)).toContain(why)
    expect(texts('5x3')).not.toContain(why)
  })

  it('say before all else what signs in the picture mean', () => {
    const signed = { ...drawing(47, 54), field: () => ({ ...picture(47), legend: '1: Copernicus.' }) }
    expect(backOf(signed, 'four')[0]?.told[0]?.text).toBe('1: Copernicus.')
  })

  it('ask for one tube, and for no way to what everyone finds', () => {
    const asked: string[] = []
    const noted = (what: string) => {
      asked.push(what)
      return null
    }
    const pictures = {
      ...SUBJECT.pictures,
      field: ({ setups }: Pick<Stop, 'setups'>, layout: FieldLayout) => noted(`field ${setups.length} ${layout}`),
      finder: ({ targetKey }: Pick<Stop, 'targetKey'>) => noted(`finder ${targetKey}`),
    }
    const tour = toured(['one'])
    const twice = { ...tour, stops: tour.stops.map((stop) => ({ ...stop, setups: [...stop.setups, ...stop.setups] })) }
    made({ tour: twice, pictures })
    made({ tour: twice, pictures, names: shown({ body: 'saturn' }) })
    made({ tour: twice, pictures, names: shown({ body: 'neptune' }) })
    made({ tour: twice, pictures, names: shown({ body: 'saturn' }) }, '5x3')
    expect(asked).toEqual([
      'field 1 card',
      'finder one',
      'field 1 whole-card',
      'field 1 card',
      'field 1 card',
      'finder one',
      'field 1 card',
    ])
  })
})

describe('the words of a card', () => {
  it.each(CARD_SIZES)('are whole parts of the story, 70 at most, on a card of size %s', (size) => {
    const names = { ...shown({}, { ...SEVENTY, how: words(15) }), nameOf: () => LONG_NAME }
    for (const hasBacks of [true, false]) {
      const face = made({ names, isStale: true }, size, hasBacks).pages[0]?.sides[0]?.face
      const told = [face?.see ?? '', ...(face?.parts ?? []).map(({ text }) => text)]
      expect(face?.name).toBe(LONG_NAME)
      expect(wordCount(told.join(' '))).toBeLessThanOrEqual(70)
      expect(told.filter((text) => ![words(14), words(15)].includes(text))).toEqual([])
      expect(face?.parts.map(({ name }) => name)).not.toContain('how')
    }
  })

  it('all stand on a larger card, and on a small one what is spared of them stands behind it', () => {
    const on = (size: CardSize, name: string) => {
      const names = { ...shown({}, SEVENTY), nameOf: () => name }
      const [front, ...rest] = made({ names, pictures: drawing(null, null) }, size).pages.flatMap(({ sides }) => sides)
      const told = rest.flatMap(({ back }) => back?.told.map(({ label }) => label ?? 'fact') ?? [])
      return [front?.face?.parts.map(({ name }) => name).join(' '), told.join(' ')]
    }
    expect(on('four', 'Albireo')).toEqual(['lookFor how compare answer', 'fact'])
    expect(on('a6', 'Albireo')).toEqual(['lookFor how compare answer', 'fact'])
    const [front, back] = on('5x3', LONG_NAME)
    expect(front?.startsWith('lookFor')).toBe(true)
    expect(back).toMatch(/^How to look: .*fact$/)
  })

  it('count the age of light where it stands in the place of a comparison', () => {
    const story = { ...SEVENTY, see: words(28), compare: '' }
    expect(faceWords({ ...A_STORY, ...story })).toBe(70)
    const face = made({ names: shown({}, story) }).pages[0]?.sides[0]?.face
    expect(face?.parts.map(({ name }) => name)).not.toContain('how')
    expect(face?.isTight).toBe(false)
  })

  it('say in the foot which night and version they are of, that they are out of date, and that they are by the host', () => {
    const foot = (more: Partial<CardsSubject>) => made(more).pages[0]?.sides[0]?.face?.foot
    expect(foot({})).toMatch(/Programme version \d+\.$/)
    expect(foot({ isStale: true })).toMatch(/Out of date: print anew\.$/)
    for (const part of FACE_PARTS) {
      const names = shown({}, { sources: { [part]: 'written by the host' } })
      expect(foot({ names })).toMatch(/Words by the host\.$/)
    }
    expect(foot({ names: shown({}, { sources: { children: 'written by the host' } }) })).not.toMatch(
      /Words by the host/,
    )
    const second = {
      ...ONE_LANGUAGE,
      language: 'de',
      story: () => ({ ...A_STORY, sources: { see: 'written by the host' } }),
    }
    expect(foot({ second })).toMatch(/Words by the host\.$/)
  })
})

describe('the form above the cards', () => {
  it('keeps the size and the backs on the other paper, and leads the host to the words of each for this night', () => {
    const subject = { ...A_FULL_PRINT, cards: { size: '6x4', hasBacks: false } } as const
    const { links, cardForm } = papersPage(HOST, subject, 'cards')
    expect(links.map(({ href }) => href).join(' ')).toMatch(/paper=letter.*&cards=6x4&backs=no/)
    const chosen = cardForm?.selects.flatMap(({ options }) => options.filter(({ isChosen }) => isChosen))
    expect(chosen?.slice(0, 2).map(({ value }) => value)).toEqual(['6x4', 'no'])
    expect(cardForm?.words.map(({ href }) => href)).toContain(
      `/objects/m13/words?language=en&night=${subject.night.id}`,
    )
    expect(papersPage(VISITOR, subject, 'cards').cardForm?.words).toEqual([])
    expect(papersPage(HOST, subject, 'run-sheet').cardForm).toBeNull()
  })
})
