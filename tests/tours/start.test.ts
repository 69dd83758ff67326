import { describe, expect, it } from 'vitest'
import { kitSaid } from '../../server/tours/kit-said.ts'
import { isSaid, usualTelescope } from '../../server/tours/kit-usual.ts'
import { type KitWords, kitWords } from '../../server/tours/kit-words.ts'
import { telescopeProblems } from '../../server/tours/problems.ts'
import { startHours } from '../../server/tours/start-hours.ts'
import { asTyped } from '../../server/tours/telescope.ts'
import { usualVisitors } from '../../server/tours/visitors.ts'
import { dateSaid } from '../../server/words/date-said.ts'
import { createWords } from '../../server/words/words.ts'
import { A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { ENGLISH } from '../support/page-data.ts'

const WORDS = kitWords(ENGLISH)
const UNSAID = { focalLengthMm: null, design: null, mount: null }

/** What is understood of a sentence: each telescope in short, or the keys and words of what is wrong. */
function understood(text: string): string {
  const { telescopes, problems } = kitSaid(text, WORDS)
  if (problems.length > 0) return problems.map(({ key, values }) => `${key} ${values?.said ?? values?.word}`).join()
  return telescopes
    .map(({ apertureMm, focalLengthMm, design, mount }) => [apertureMm, focalLengthMm, design, mount])
    .map((parts) => parts.filter((part) => part !== null).join(' '))
    .join(', ')
}

describe('telescopes in plain words', () => {
  it.each([
    ['two 130 mm telescopes', '130, 130'],
    ['a 150mm and two 80 mm refractors', '150, 80 refractor, 80 refractor'],
    ['8 inch dobsonian', '203 reflector altaz-hand'],
    ['D 130 mm from the school', '130'],
    ['two borrowed 130/650', '130 650, 130 650'],
    ['5 inch, lent by our club', '127'],
    ['10"', '254'],
    ['one 102 mm, one 200 mm by hand', '102, 200 altaz-hand'],
    ['One 102,5 mm refractor', '102.5 refractor'],
    ['2x130mm + 3 × 80 mm', '130, 130, 80, 80, 80'],
    ['2 130 mm, 1 60 cm', '130, 130, 600'],
    ['a pair of 130/650', '130 650, 130 650'],
    ['130mm x 650mm', '130 650'],
    ['a 203 mm f/10 Schmidt-Cassegrain', '203 2030 catadioptric'],
    ['an 8 and a 10 inch dobsonian', '203, 254 reflector altaz-hand'],
    ['two telescopes, 130 mm each', '130, 130'],
    [
      'One 6-inch Newtonian on an equatorial mount; two 70 mm refractors.',
      '152 reflector equatorial, 70 refractor, 70 refractor',
    ],
  ])('takes “%s” for %s', (text, telescopes) => expect(understood(text)).toBe(telescopes))

  it.each([
    ['two big binoculars', 'problem.kit-word binoculars'],
    ['two telescopes', 'problem.kit-width two telescopes'],
    ['a 130 mm and two telescopes', 'problem.kit-width two telescopes'],
    ['three 5 mm telescopes', 'problem.kit-range three 5 mm telescopes'],
    ['1501 mm', 'problem.kit-range 1501 mm'],
    ['130/20', 'problem.kit-focal 130/20'],
    ['1.5 x 130 mm', 'problem.kit-word 1.5'],
    ['13 130 mm telescopes', 'problem.kit-many undefined'],
    ['0 x 130 mm', 'problem.kit-none undefined'],
    ['', 'problem.kit-none undefined'],
    ['130 mm '.repeat(50), 'problem.kit-long undefined'],
  ])('refuses “%s” with %s', (text, why) => expect(understood(text)).toBe(why))

  it('goes by the words of another language', () => {
    const telescopes = WORDS.get('telescopes')
    const words: KitWords = new Map([
      ['zwei', { kind: 'count', count: 2 }],
      ['mm', { kind: 'unit', mm: 1 }],
      ...(telescopes ? ([['fernrohre', telescopes]] as const) : []),
    ])
    expect(kitSaid('zwei 102,5 mm Fernrohre', words).telescopes.map(({ apertureMm }) => apertureMm)).toEqual([
      102.5, 102.5,
    ])
  })
})

describe('what is assumed of a telescope', () => {
  it('can be kept, for every width, kind and mount', () => {
    for (const apertureMm of [20, 60, 114, 130, 203, 254, 600, 1500]) {
      for (const design of [null, 'refractor', 'reflector', 'catadioptric'] as const) {
        for (const mount of [null, 'altaz-hand', 'equatorial'] as const) {
          const draft = usualTelescope({ ...UNSAID, apertureMm, design, mount }, 'One', 'Assumed.')
          expect(telescopeProblems(draft), `${apertureMm} ${design} ${mount}`).toEqual([])
          expect(isSaid(asTyped(draft), { ...UNSAID, apertureMm, design, mount })).toBe(true)
        }
      }
    }
  })

  it('is a reflector of 650 mm with two eyepieces for 130 mm', () => {
    const { tubes, eyepieces, note } = usualTelescope({ ...UNSAID, apertureMm: 130 }, 'One', 'Assumed.')
    expect(tubes[0]).toMatchObject({ design: 'reflector', focalLengthMm: 650, hasDiagonal: false })
    expect([eyepieces.map(({ focalLengthMm }) => focalLengthMm), note]).toEqual([[25, 10], 'Assumed.'])
  })

  it('keeps to what was said', () => {
    const said = { apertureMm: 130, focalLengthMm: 900, design: 'refractor', mount: 'equatorial' } as const
    expect(usualTelescope(said, 'One', 'Assumed.')).toMatchObject({
      mount: 'equatorial',
      tubes: [said].map(({ mount: _mount, ...tube }) => tube),
    })
  })

  it('is taken from the kit where width, kind and mount fit, 200 mm being 8 inches', () => {
    const fits = (said: object) => isSaid(A_TELESCOPE, { ...UNSAID, apertureMm: 200, ...said })
    expect([fits({}), fits({ mount: 'altaz-hand' }), fits({ focalLengthMm: 1200 })]).toEqual([true, true, true])
    expect([fits({ apertureMm: 190 }), fits({ design: 'refractor' }), fits({ mount: 'equatorial' })]).toEqual([
      false,
      false,
      false,
    ])
  })
})

const siteAt = (latitudeDeg: number, longitudeDeg: number, zone: string) => ({
  ...A_SITE,
  latitudeDeg,
  longitudeDeg,
  zone,
})
const THUN = siteAt(46.75, 7.62, 'Europe/Zurich')
const LONDON = siteAt(51.5, -0.1, 'Europe/London')
const TROMSO = siteAt(69.65, 18.96, 'Europe/Oslo')

describe('the hours of an evening of which only the date is known', () => {
  it.each([
    ['a winter evening', THUN, '2026-12-17', '17:30', '20:00', false, null],
    ['a spring evening that ends at bedtime', THUN, '2027-04-20', '21:15', '22:45', true, null],
    ['midsummer, when the Sun sets late', LONDON, '2027-06-21', '22:00', '23:30', true, 'sun-late'],
    ['midnight sun', TROMSO, '2027-06-21', '19:30', '22:00', false, 'midnight-sun'],
    ['polar night', TROMSO, '2026-12-17', '19:30', '22:00', false, null],
  ] as const)('are those of %s', (_name, site, date, opens, closes, isLate, noDark) => {
    expect(startHours(site, date)).toMatchObject({ date, opens, closes, isLate, noDark })
  })

  it('belong to the next day where the Sun sets about midnight', () => {
    const hours = startHours(TROMSO, '2027-07-27')
    expect(hours.sunsetAt).not.toBeNull()
    expect(hours.date).toBe('2027-07-28')
    expect(hours.opens < hours.closes).toBe(true)
  })

  it('have twenty people at each telescope in every half hour, the children first', () => {
    const rows = usualVisitors({ ...startHours(THUN, '2026-12-17'), site: THUN }, 2)
    expect(rows.map(({ startsAt }) => startsAt)).toEqual(['17:30', '18:00', '18:30', '19:00', '19:30'])
    expect(rows.map(({ adults, children }) => adults + children)).toEqual([40, 40, 40, 40, 40])
    expect(rows[0]?.children).toBeGreaterThan(rows[4]?.children ?? 0)
  })
})

describe('a date in plain words', () => {
  const GERMAN = createWords({}, { language: 'de', hours12: false, units: 'metric' })
  const read = (text: string, words = ENGLISH) => dateSaid(words, text, '2026-11-27')

  it.each([
    ['17 December 2026', '2026-12-17'],
    ['Thursday, Dec 17th 2026', '2026-12-17'],
    ['2026-12-17', '2026-12-17'],
    ['17.12.2026', '2026-12-17'],
    ['12/17/2026', '2026-12-17'],
    ['12.12.2026', '2026-12-12'],
    ['17 december', '2026-12-17'],
    ['3 may', '2027-05-03'],
    ['29 February 2028', '2028-02-29'],
    ['29 February', '2028-02-29'],
  ])('is read of “%s”', (text, date) => expect(read(text)).toEqual({ date }))

  it('goes by the months of another language', () => {
    expect(read('17. Dezember 2026', GERMAN)).toEqual({ date: '2026-12-17' })
  })

  it.each([
    ['', 'problem.date-none'],
    ['soon', 'problem.date-said'],
    ['17', 'problem.date-said'],
    ['17 and 18 December', 'problem.date-said'],
    ['31 November 2026', 'problem.no-such-day'],
    ['17 December 1926', 'problem.date-century'],
    ['7/8/2027', 'problem.date-swap'],
  ])('is not read of “%s”: %s', (text, key) => expect(read(text)).toMatchObject({ key }))

  it('is read back both ways where day and month could be swapped', () => {
    const { values } = { values: {}, ...read('7/8/2027') } as { values: Record<string, string> }
    expect([values.one, values.other]).toEqual([ENGLISH.date('2027-08-07'), ENGLISH.date('2027-07-08')])
  })
})
