import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import type { AlignmentOutlook } from '../../server/tours/alignment-outlook.ts'
import { readWordTables } from '../../server/web/language.ts'
import type { AlignPage } from '../../server/web/pages/align.ts'
import { A_PAIR } from '../support/alignment-data.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { AN_EVENING } from '../support/page-data.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

const at = (text: string): Date => new Date(`2026-11-${text}:00Z`)
const STARS_AT = at('20T16:05')
let now = at('20T12:00')
let outlook: AlignmentOutlook = { cause: null, fromAt: null }
let asked: Date[] = []
let service: TestApp

beforeAll(async () => {
  const { desk } = fakeDesk()
  service = await testApp({
    words: readWordTables(),
    clock: { now: () => now, isRehearsal: true, speed: 1 },
    writePage: async (_app, _name, model) => JSON.stringify(model),
    desk: {
      ...desk,
      sky: { ...desk.sky, bodyLook, evening: () => AN_EVENING },
      alignment: {
        ...desk.alignment,
        pairs: async () => [A_PAIR],
        outlook: async (_id, when) => {
          asked.push(when)
          return outlook
        },
      },
    },
  })
})
afterAll(() => service.app.close())
beforeEach(() => {
  asked = []
})

const page = async (query = ''): Promise<AlignPage> =>
  (await service.app.inject(asVisitor({ url: `/nights/night-1/align${query}` }))).json()

describe('the moment that the page of alignment stars tells of', () => {
  it('is now while the Sun is up over the field: its rule first, and nothing offered', async () => {
    now = at('20T13:00')
    outlook = { cause: 'sun', fromAt: STARS_AT }
    const { sun, note, pairs, time } = await page()
    expect(sun).toMatch(/^The Sun first/)
    expect([time, pairs]).toEqual(['14:00', []])
    expect(note).toContain('From 17:05')
    expect(asked).toEqual([now])
  })

  it('keeps the rule of the Sun first when somebody asks by day for the evening', async () => {
    outlook = { cause: null, fromAt: at('20T16:30') }
    const { sun, pairs } = await page('?at=17:30')
    expect(sun).toMatch(/^The Sun first/)
    expect(pairs).toHaveLength(1)
    expect(asked).toEqual([at('20T16:30')])
  })

  it('is the first useful one in the twilight, with a word that now is too early', async () => {
    now = at('20T15:45')
    outlook = { cause: 'bright', fromAt: STARS_AT }
    const { sun, note, pairs, time } = await page()
    expect([sun, time, pairs.length]).toEqual([null, '17:05', 1])
    expect(note).toBe('Still too bright: from 17:05 two stars can be centred.')
  })

  it('is now in the dark', async () => {
    now = at('20T18:00')
    outlook = { cause: null, fromAt: now }
    const { note, pairs, time } = await page()
    expect([note, time, pairs.length]).toEqual([null, '19:00', 1])
  })

  it('is that of the evening when it is read on another day', async () => {
    now = at('14T09:00')
    outlook = { cause: 'bright', fromAt: STARS_AT }
    const { sun, note, time, pairs } = await page()
    expect([sun, note, time, pairs.length]).toEqual([null, null, '17:05', 1])
    expect(asked).toEqual([at('20T15:33')])
  })

  it('has no stars at a time that was asked for and is too bright', async () => {
    outlook = { cause: 'bright', fromAt: STARS_AT }
    const { note, time, pairs } = await page('?at=16:45')
    expect([time, pairs]).toEqual(['16:45', []])
    expect(note).toContain('from 17:05')
  })
})
