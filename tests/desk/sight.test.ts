import { afterAll, describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { skyBrightness } from '../../server/sight/sky-brightness.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { geometryAtStep, instantAtStep } from '../../server/tours/sky-at.ts'
import { freshDesk } from '../support/desk-folder.ts'
import { A_NIGHT } from '../support/field-data.ts'

const { desk, close } = await freshDesk()
afterAll(close)

const PLACE = { latitudeDeg: 48, longitudeDeg: 11, heightM: 500 }
const optics = { apertureMm: 150, focalLengthMm: 750, obstruction: 0.2, transmission: 0.88 }
const ocular = { focalLengthMm: 20, apparentFieldDeg: 52, fieldStopMm: null }
const ask = (objectKey: string, at: Date, place = PLACE) =>
  desk.sight.ask({ objectKey, at, place, optics, ocular, conditions: DEFAULT_CONDITIONS })

describe('a question about one sight', () => {
  it('is answered with a warning while the Sun is up, and with another near the Sun', () => {
    const noon = new Date('2026-11-13T12:00:00Z')
    expect(ask('mercury', noon).caution).toEqual({ code: 'sight.caution-near-sun', values: { separation: 16 } })
    expect(ask('saturn', noon).caution).toEqual({ code: 'sight.caution-sun-up' })
    expect(ask('saturn', new Date('2026-11-13T19:00:00Z')).caution).toBeNull()
  })

  it('has the same light of the sky behind a low thing as the tables of the evening', () => {
    const objects = ['mercury', 'venus', 'moon', 'saturn', 'jupiter', 'm13', 'm4', 'm22'].flatMap(
      (key) => desk.objects.show(key) ?? [],
    )
    const sky = eveningSky(A_NIGHT, objects)
    const { latitudeDeg, longitudeDeg, heightM } = A_NIGHT.site
    let low = 0
    for (let step = 0; step < sky.count; step++) {
      for (const [index, { key }] of objects.entries()) {
        const geometry = geometryAtStep(sky, index, step)
        if (geometry.altitudeDeg < 0.1 || geometry.altitudeDeg > 6 || key === 'moon') continue
        low++
        const table = skyBrightness(geometry, DEFAULT_CONDITIONS).totalCd
        const asked = ask(key, instantAtStep(sky, step), { latitudeDeg, longitudeDeg, heightM }).sky.totalCd
        expect(Math.abs(asked / table - 1), `${key} ${step} ${geometry.altitudeDeg}`).toBeLessThan(0.0005)
      }
    }
    expect(low).toBeGreaterThan(20)
  })
})
