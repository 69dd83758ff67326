import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

const get = (url: string) => service.app.inject(asVisitor({ url }))

describe('the alignment stars of a night', () => {
  it('are told to anyone with names, directions and the error that is left', async () => {
    const answer = await get('/api/nights/night-1/alignment?at=2026-11-20T16:30:00Z')
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toEqual({
      at: '2026-11-20T16:30:00.000Z',
      atWall: '17:30',
      zone: 'Europe/Berlin',
      pairs: [
        {
          stars: [
            { key: 'hip91262', name: 'Vega', magnitude: 0.03, altitudeDeg: 40, azimuthDeg: 290, isAlone: true },
            { key: 'hip24608', name: 'Capella', magnitude: 0.08, altitudeDeg: 30, azimuthDeg: 55, isAlone: true },
          ],
          separationDeg: 92,
          azimuthApartDeg: 125,
          meanErrorFactor: 1.25,
        },
      ],
    })
  })

  it("are those of now by the evening's clock when no instant is asked for", async () => {
    expect((await get('/api/nights/night-1/alignment')).json()).toMatchObject({ at: '2026-11-14T16:00:00.000Z' })
  })

  it('are refused for an instant that is none and for a night that is none', async () => {
    expect((await get('/api/nights/night-1/alignment?at=tonight')).statusCode).toBe(422)
    expect((await get('/api/nights/night-9/alignment')).statusCode).toBe(404)
  })
})
