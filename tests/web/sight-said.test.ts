import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { viewThrough } from '../../server/sight/optics.ts'
import { sighting } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { sunCaution } from '../../server/sight/sun-caution.ts'
import en from '../../views/words/en.json' with { type: 'json' }
import { fakeDesk } from '../support/fake-desk.ts'
import { darkNight, things } from '../support/sight-data.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

let geometry: SkyGeometry = darkNight
let subject: Subject = things.jupiter
let service: TestApp
beforeAll(async () => {
  const { desk } = fakeDesk()
  const ask: typeof desk.sight.ask = ({ optics, ocular, conditions }) => ({
    ...sighting(subject, geometry, viewThrough(optics, ocular), conditions),
    caution: sunCaution(geometry),
  })
  service = await testApp({ desk: { ...desk, sight: { ask } }, words: { en } })
})
afterAll(() => service.app.close())

const QUESTION = {
  objectKey: 'm13',
  at: '2026-11-20T18:00:00Z',
  place: { latitudeDeg: 48, longitudeDeg: 11, heightM: 500 },
  tube: { apertureMm: 150, focalLengthMm: 750 },
  eyepiece: { focalLengthMm: 10, apparentFieldDeg: 52 },
}
async function answered(of: Subject, where: Partial<SkyGeometry>, changes: object = {}) {
  subject = of
  geometry = { ...darkNight, ...where }
  const payload = { ...QUESTION, ...changes }
  return (await service.app.inject(asVisitor({ method: 'POST', url: '/api/sight', payload }))).json()
}

describe('the Sun in an answer', () => {
  it('is warned of with a sentence when it is up, and the warning leads the whole answer', async () => {
    const far = await answered(things.venus, { sunAltitudeDeg: 12, sunSeparationDeg: 40 })
    expect(far.caution).toMatchObject({ code: 'sight.caution-sun-up', message: en['sight.caution-sun-up'] })
    const near = await answered(things.venus, { sunAltitudeDeg: -0.8, sunSeparationDeg: 16.7 })
    expect(near.caution).toMatchObject({ code: 'sight.caution-near-sun', values: { separation: 16 } })
    expect(near.caution.message).toMatch(/16 degrees/)
    expect(near.caution.message).toMatch(/[Nn]ever point a telescope/)
    expect(near.sentence.startsWith(near.caution.message)).toBe(true)
  })

  it('needs no warning once it is down', async () => {
    expect((await answered(things.venus, { sunAltitudeDeg: -0.9, sunSeparationDeg: 10 })).caution).toBeNull()
  })
})

describe('the sentence of an answer', () => {
  it('is the word and the two heaviest reasons', async () => {
    const { sentence, reasons } = await answered(things.jupiter, {})
    expect(sentence).toBe(`Anyone sees it. ${reasons[0].message} ${reasons[1].message}`)
    expect(reasons[0].code).toBe('sight.bright')
  })

  it('says of a thing that is down only that', async () => {
    const { sentence } = await answered(things.m13, { altitudeDeg: -5 })
    expect(sentence).toBe('Not tonight. It is below the horizon.')
  })

  it('never tells of no sky at all', async () => {
    const eyepiece = { focalLengthMm: 2, apparentFieldDeg: 52, factor: 5 }
    const { reasons } = await answered(things.m13, {}, { eyepiece })
    const messages = reasons.map(({ message }: { message: string }) => message)
    expect(messages).toContain('The eyepiece shows 1.7 arcminutes of sky; it needs 9.7.')
    expect(messages.join()).not.toMatch(/ 0(\.0)? degrees/)
    expect(messages.join()).toContain('1875')
  })
})

it('says in its description what the magnitudes of a reason are beside the number in its sentence', async () => {
  const document = (await service.app.inject(asVisitor({ url: '/api/openapi.json' }))).json()
  const { description } = document.paths['/api/sight'].post
  expect(description).toContain('magnitudes')
  expect(description).toContain('values.mag')
})
