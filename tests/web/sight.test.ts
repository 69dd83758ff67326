import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { viewThrough } from '../../server/sight/optics.ts'
import { sighting } from '../../server/sight/sighting.ts'
import { skyMagOfClass } from '../../server/sight/site-light.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import { sunCaution } from '../../server/sight/sun-caution.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { moonNight, things } from '../support/sight-data.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

let place: SkyGeometry = moonNight
let service: TestApp
beforeAll(async () => {
  const { desk } = fakeDesk()
  const ask: typeof desk.sight.ask = ({ optics, ocular, conditions }) => ({
    ...sighting(things.m13, place, viewThrough(optics, ocular), conditions),
    caution: sunCaution(place),
  })
  service = await testApp({ desk: { ...desk, sight: { ask } } })
})
afterAll(() => service.app.close())

const QUESTION = {
  objectKey: 'm13',
  at: '2026-11-20T18:00:00Z',
  place: { latitudeDeg: 48, longitudeDeg: 11, heightM: 500 },
  tube: { apertureMm: 150, focalLengthMm: 1200, obstruction: 0.2 },
  eyepiece: { focalLengthMm: 25, apparentFieldDeg: 52 },
}
type Changes = { readonly [Key in keyof typeof QUESTION]?: object } & { readonly conditions?: object }

const asked = (changes: Changes | { readonly at: string }) =>
  service.app.inject(asVisitor({ method: 'POST', url: '/api/sight', payload: { ...QUESTION, ...changes } }))
const answered = async (changes: Changes) => (await asked(changes)).json()

describe('what the service says of one sight', () => {
  it('is the sky by its parts, the limit, the chance with its range, the view and the reasons', async () => {
    const answer = await answered({ conditions: { zenithMag: 20.5, seeingArcsec: 2 } })
    const { siteCd, moonCd, twilightCd, totalCd } = answer.sky
    expect(moonCd).toBeGreaterThan(0)
    expect(siteCd + moonCd + twilightCd).toBeCloseTo(totalCd, 12)
    expect(answer.chanceLow).toBeLessThan(answer.chance)
    expect(answer.chance).toBeLessThan(answer.chanceHigh)
    expect(answer.limitMag).toBeGreaterThan(11)
    expect(answer.reasons.length).toBeGreaterThan(0)
    for (const { code, message } of answer.reasons) expect([typeof code, typeof message]).toEqual(['string', 'string'])
    expect(answer).toMatchObject({ powerX: 48, exitPupilMm: 3.125, highestPowerX: 175, word: expect.any(String) })
    expect(answer.conditions).toMatchObject({ zenithMag: 20.5, eyes: 1, pupilMm: 6, noviceFactor: 4 })
  })

  it('takes a class of the sky for its value and says which value that was', async () => {
    const answer = await answered({ conditions: { skyClass: 6 } })
    expect(answer.conditions.zenithMag).toBe(skyMagOfClass(6))
    expect(answer.conditions).not.toHaveProperty('skyClass')
    expect(answer.chance).toBe((await answered({ conditions: { zenithMag: skyMagOfClass(6) } })).chance)
    expect((await answered({ conditions: { skyClass: 9 } })).chance).toBeLessThan(answer.chance)
  })

  it('takes the age of the visitors for their pupils, and two eyes for binoculars', async () => {
    const wide = { eyepiece: { focalLengthMm: 50, apparentFieldDeg: 52 } }
    const old = await answered({ ...wide, conditions: { visitorYears: 80 } })
    expect(old.conditions.pupilMm).toBeCloseTo(5.08, 2)
    const [one, two] = await Promise.all([answered({}), answered({ conditions: { eyes: 2 } })])
    expect(two.limitMag - one.limitMag).toBeCloseTo(0.376, 3)
  })

  it('doubles the power behind a Barlow of two', async () => {
    const answer = await answered({ eyepiece: { ...QUESTION.eyepiece, factor: 2 } })
    expect(answer).toMatchObject({ powerX: 96, exitPupilMm: 1.5625 })
    expect(answer.trueFieldDeg).toBeCloseTo(52 / 96, 6)
  })

  it('is an answer and no error for a thing below the horizon', async () => {
    place = { ...moonNight, altitudeDeg: -12 }
    const answer = await asked({})
    place = moonNight
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toMatchObject({ chance: 0, limitMag: null, word: 'not-tonight' })
    expect(answer.json().reasons).toMatchObject([{ code: 'sight.below-horizon', values: { altitude: -12 } }])
  })
})

const { tube, eyepiece } = QUESTION
const WRONG: readonly [string, Changes | { readonly at: string }, string, string][] = [
  ['a sky brighter than any night', { conditions: { zenithMag: 5 } }, 'conditions.zenithMag', 'problem.range'],
  ['a tenth class', { conditions: { skyClass: 10 } }, 'conditions.skyClass', 'problem.range'],
  ['a class and a half', { conditions: { skyClass: 4.5 } }, 'conditions.skyClass', 'problem.type-integer'],
  [
    'a value and a class of the sky',
    { conditions: { zenithMag: 20, skyClass: 4 } },
    'conditions.skyClass',
    'problem.said-twice',
  ],
  [
    'a pupil and an age',
    { conditions: { pupilMm: 6, visitorYears: 40 } },
    'conditions.visitorYears',
    'problem.said-twice',
  ],
  ['three eyes', { conditions: { eyes: 3 } }, 'conditions.eyes', 'problem.choice'],
  ['an eyepiece of 0 mm', { eyepiece: { ...eyepiece, focalLengthMm: 0 } }, 'eyepiece.focalLengthMm', 'problem.range'],
  ['a Barlow of 0', { eyepiece: { ...eyepiece, factor: 0 } }, 'eyepiece.factor', 'problem.range'],
  [
    'a field stop wider than the field',
    { eyepiece: { ...eyepiece, fieldStopMm: 46 } },
    'eyepiece.fieldStopMm',
    'problem.stop-wide',
  ],
  ['a nearly closed tube', { tube: { ...tube, obstruction: 0.9 } }, 'tube.obstruction', 'problem.range'],
  ['a tube shorter than wide', { tube: { ...tube, focalLengthMm: 140 } }, 'tube.focalLengthMm', 'problem.focus-short'],
  ['more light out than in', { tube: { ...tube, transmission: 1.2 } }, 'tube.transmission', 'problem.range'],
  ['the year 1999', { at: '1999-12-31T23:59:59Z' }, 'at', 'problem.range'],
  ['the year 2100', { at: '2100-01-01T00:00:00Z' }, 'at', 'problem.range'],
]

describe('what no eye could look through, and no night could be', () => {
  it.each(WRONG)('is refused by its field: %s', async (_what, changes, field, code) => {
    const answer = await asked(changes)
    expect(answer.statusCode).toBe(422)
    expect(answer.json().error.problems).toContainEqual({ field, code, message: expect.any(String) })
  })

  it('takes the first and the last moment of the century it knows, and every class', async () => {
    for (const at of ['2000-01-01T00:00:00Z', '2099-12-31T23:59:59Z'])
      expect((await asked({ at })).statusCode).toBe(200)
    for (let skyClass = 1; skyClass <= 9; skyClass++)
      expect((await asked({ conditions: { skyClass } })).statusCode).toBe(200)
  })
})
