import fc from 'fast-check'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { OWN_COLUMNS } from '../../server/web/pages/own-columns.ts'
import { ownExample } from '../../server/web/pages/own-example.ts'
import { MOST_LETTERS, readOwnCsv } from '../../server/web/routes/own-csv.ts'
import { importOwn } from '../../server/web/routes/own-import.ts'
import { ENGLISH, GERMAN } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())
afterEach(() => {
  for (const { key, isListed } of service.desk.own.all()) if (isListed) service.desk.own.retire(key)
})

const OWN_EXAMPLE = ownExample(ENGLISH)
const listed = () => service.desk.own.all().filter(({ isListed }) => isListed)
const take = (text: string, words = ENGLISH) => importOwn(service.desk, words, text)
const wrong = (text: string, words = ENGLISH) => {
  const taken = take(text, words)
  return 'problems' in taken ? taken.problems.map(({ line, column, key }) => [line, column, key]) : []
}
const post = (list: string, as = asHost) => service.app.inject(as(formPost('/extras/import', { list })))

describe('a list of things', () => {
  it('is taken in as the page shows it, with each thing as its line says', () => {
    expect(wrong(OWN_EXAMPLE)).toEqual([])
    const drafts = new Map(listed().map(({ draft }) => [draft.name, draft]))
    expect(drafts.size).toBe(6)
    expect(drafts.get('Kate’s Cluster')?.raDeg).toBeCloseTo(323.05, 9)
    expect(drafts.get('Kate’s Cluster')?.decDeg).toBeCloseTo(48.43333, 4)
    expect(drafts.get('The Two Lanterns')).toMatchObject({ kind: 'double', secondMagnitude: 5.1, separationArcsec: 34 })
    expect(drafts.get('Space station')).toMatchObject({ fromAt: '2026-12-17T17:42:10.000Z', fromPoint: 12, toPoint: 3 })
  })

  it('is taken in as a German reader sees it, with German names and directions', () => {
    const shown = ownExample(GERMAN)
    expect(shown).toContain(',West,Ostnordost,0.7,Alle winken ihr zu\n')
    expect(wrong(shown, GERMAN)).toEqual([])
    expect(listed().map(({ draft }) => draft.name)).toContain('Katrins Haufen')
    expect(listed().find(({ draft }) => draft.name === 'Raumstation')?.draft).toMatchObject({
      fromPoint: 12,
      toPoint: 3,
    })
  })

  it('may have its columns in any order, semicolons or tabs, decimal commas, a mark at its start, and empty lines', () => {
    const rows = ['\ufeff', 'Kind;NAME;magnitude;ra;dec', '', 'Red Star;Our Coal;7,5;300,5;-12,25', ';;;;', '']
    expect(wrong(rows.join('\r\n'))).toEqual([])
    expect(listed()[0]?.draft).toEqual({
      name: 'Our Coal',
      kind: 'red-star',
      raDeg: 300.5,
      decDeg: -12.25,
      magnitude: 7.5,
      appeal: 0.5,
      appealReason: 'own.why-blank',
    })
    expect(wrong('name\tkind\tmagnitude\tra\tdec\nOur Ember\tstar\t5\t10\t20\n')).toEqual([])
  })

  it('gives a thing that came without a reason one that each reader has in their own language', async () => {
    expect(wrong('name,kind,magnitude,ra,dec\nOur Ember,star,5,10,20\n', GERMAN)).toEqual([])
    const [{ key = '' } = {}] = listed()
    for (const [lang, said] of [
      ['en', 'The host chose it.'],
      ['de', 'Die Leitung hat es gewählt.'],
    ]) {
      for (const page of ['/extras', `/objects/${key}`, `/extras/${key}/edit`])
        expect((await service.app.inject(asHost({ url: `${page}?lang=${lang}` }))).body, page).toContain(said)
    }
    const typed = { name: 'Our Ember', kind: 'star', magnitude: '5', raDeg: '10', decDeg: '20', appeal: '0.5' }
    const again = { ...typed, appealReason: 'Die Leitung hat es gewählt.' }
    const sent = await service.app.inject(asHost(formPost(`/extras/${key}?lang=de`, again)))
    expect([sent.statusCode, listed()[0]?.draft.appealReason]).toEqual([303, 'own.why-blank'])
  })

  it('is taken in by the clocks of the night on which a pass falls', () => {
    const row = (from: string) =>
      `name,kind,magnitude,from,to,from_direction,to_direction\nStation,bare-eye,-3,${from},2026-11-20 19:18,WSW,90\n`
    expect(wrong(row('2026-12-24 19:12'))).toEqual([[2, 'from', 'problem.no-night-then']])
    expect(wrong(row('at dusk'))).toEqual([[2, 'from', 'problem.pass-time']])
    expect(wrong(row('2026-11-20 19:12:10'))).toEqual([])
    expect(listed()[0]?.draft).toMatchObject({ fromAt: '2026-11-20T18:12:10.000Z', fromPoint: 11, toPoint: 4 })
  })
})

describe('a list with mistakes', () => {
  it('names every one by line and column, and nothing of it is taken in', () => {
    const text = `name,kind,ra,dec,magnitude,width_arcmin,why
Our Ember,star,10,20,5,,
m13,globular,250,36,6,10,ours
Our Smudge,galaxy,25h,20,x,,
OUR ember,star,10,20,5,3,

,moon,,,,,
Our Ring,planetary,10,95,9,1,"two",more
`
    expect(wrong(text)).toEqual([
      [3, 'name', 'problem.name-taken'],
      [4, 'ra', 'problem.range-below'],
      [4, 'magnitude', 'problem.type'],
      [4, 'width_arcmin', 'problem.required'],
      [5, 'width_arcmin', 'problem.not-of-kind'],
      [5, 'name', 'problem.name-twice'],
      [7, 'name', 'problem.required'],
      [7, 'magnitude', 'problem.required'],
      [7, 'kind', 'problem.own-kind'],
      [8, '', 'problem.cells-many'],
      [8, 'dec', 'problem.range'],
    ])
    expect(listed()).toEqual([])
  })

  it('has no second thing of a name that is on the list of the host', () => {
    take('name,kind,magnitude,ra,dec\nOur Ember,star,5,10,20')
    expect(wrong('name,kind,magnitude,ra,dec\nour ember!,star,5,10,20')).toEqual([[2, 'name', 'problem.name-taken']])
  })

  it.each([
    ['', [[1, '', 'problem.csv-empty']]],
    ['\n \n', [[1, '', 'problem.csv-empty']]],
    ['name,kind,magnitude', [[1, '', 'problem.csv-no-rows']]],
    [
      '\nname,ra,ra,size\nx,1,1,1',
      [
        [2, 'ra', 'problem.column-twice'],
        [2, 'size', 'problem.column-unknown'],
        [2, 'kind', 'problem.column-missing'],
        [2, 'magnitude', 'problem.column-missing'],
      ],
    ],
    ['name,kind,magnitude\n"Ember,star,5\n', [[2, '', 'problem.csv-quotes']]],
    ['x'.repeat(MOST_LETTERS + 1), [[1, '', 'problem.csv-large']]],
  ])('is refused as a whole when it is no such list: %#', (text, problems) => {
    expect(wrong(text)).toEqual(problems)
  })

  it('has 500 things at most', () => {
    const rows = (count: number) =>
      ['name,kind,magnitude,ra,dec', ...Array.from({ length: count }, (_, i) => `Star ${i} of ours,star,5,10,20`)].join(
        '\n',
      )
    expect(wrong(rows(501))).toEqual([[502, '', 'problem.csv-rows']])
    expect(listed()).toEqual([])
    expect(wrong(rows(500))).toEqual([])
    expect(listed()).toHaveLength(500)
  })
})

const cell = fc.oneof(
  fc.constantFrom(
    '',
    'star',
    'galaxy',
    'bare-eye',
    'Our Ember',
    '5',
    '05h 35m',
    "-5° 23'",
    '"',
    '2026-11-20 19:12',
    'west',
  ),
  fc.string(),
)
const table = fc
  .tuple(
    fc.subarray(Object.keys(OWN_COLUMNS), { minLength: 3 }),
    fc.array(fc.array(cell, { maxLength: 24 }), { maxLength: 6 }),
  )
  .map(([columns, rows]) => [columns, ...rows].map((cells) => cells.join(',')).join('\n'))

describe('whatever is pasted', () => {
  it('is taken in as a whole or not at all, and never breaks anything', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' }), table), (text) => {
        const before = listed().length
        const taken = take(text)
        const more = listed().length - before
        if ('problems' in taken) {
          expect([taken.problems.length > 0, more]).toEqual([true, 0])
          for (const { line, key, values } of taken.problems) {
            expect(line).toBeGreaterThan(0)
            expect(ENGLISH.say(key, values)).not.toMatch(/\{\w+\}/)
          }
        } else {
          expect(more).toBe(readOwnCsv(text).rows.length)
          for (const { key } of taken.added) service.desk.own.retire(key)
        }
      }),
      { numRuns: 300 },
    )
  })
})

describe('the page of imports', () => {
  it('describes every column and kind, and keeps what was pasted beside what is wrong', async () => {
    const page = await service.app.inject(asHost({ url: '/extras/import' }))
    for (const column of Object.keys(OWN_COLUMNS)) expect(page.body).toContain(`<dt>${column}</dt>`)
    const answer = await post('name,kind,magnitude\n<b>,moon,5\n')
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('Nothing was taken in: one thing is wrong')
    expect(answer.body).toMatch(/<li><a href="#field-list">Line 2, column kind: This is no kind\./)
    expect(answer.body).toMatch(
      /<textarea[^>]*aria-describedby="field-list-hint field-list-problem" aria-invalid="true">name,kind,magnitude\n&lt;b&gt;/,
    )
    expect(answer.body).toContain('id="field-list-problem"')
  })

  it('leads to the list, which says how many there are', async () => {
    const answer = await post(OWN_EXAMPLE)
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/extras?added=6'])
    expect((await service.app.inject(asHost({ url: '/extras?added=6' }))).body).toContain('6 things were added.')
  })

  it('takes a long list, and is left to the host', async () => {
    const long = `name,kind,magnitude,why\n${'Ember,star,5,é%\n'.repeat(60_000)}`
    expect(long.length).toBeLessThan(MOST_LETTERS)
    expect((await post(long)).statusCode).toBe(422)
    expect((await post(OWN_EXAMPLE, asVisitor)).statusCode).toBe(403)
    expect(listed()).toEqual([])
  })
})

describe('a list through the API', () => {
  const send = (csv: unknown, as = asHost) =>
    service.app.inject(as({ method: 'POST', url: '/api/objects/own/import', payload: { csv } }))

  it('answers what it took in, or what is wrong by line and column', async () => {
    const taken = await send(OWN_EXAMPLE)
    expect([taken.statusCode, taken.json().things.length]).toEqual([201, 6])
    const refused = await send('name,kind,magnitude,ra,dec\nOur Ember,star,bright,10,20')
    expect(refused.statusCode).toBe(422)
    expect(refused.json().error.problems).toEqual([
      { field: '2.magnitude', code: 'problem.type', message: 'Write a number here.' },
    ])
    expect((await send(7)).statusCode).toBe(422)
    expect((await send(OWN_EXAMPLE, asVisitor)).statusCode).toBe(403)
  })
})
