import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readWordTables } from '../../server/web/language.ts'
import { asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp({ words: readWordTables() })
})
afterAll(() => service.app.close())

const get = (url: string) => service.app.inject(asVisitor({ url }))

describe('the alignment stars of a night', () => {
  it('are told to anyone with names, colours, directions, what could be taken for them, a proof and the error that is left', async () => {
    const answer = await get('/api/nights/night-1/alignment?at=2026-11-20T16:30:00Z')
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toEqual({
      at: '2026-11-20T16:30:00.000Z',
      atWall: '17:30',
      zone: 'Europe/Berlin',
      pairs: [
        {
          stars: [
            {
              key: 'hip91262',
              name: 'Vega',
              magnitude: 0.03,
              colour: { code: 'colour.white', values: {}, message: 'white' },
              altitudeDeg: 40,
              azimuthDeg: 290,
              directionText: 'west-north-west, 4 fists up',
              isAlone: true,
              lookAlike: null,
            },
            {
              key: 'hip24608',
              name: 'Capella',
              magnitude: 0.08,
              colour: { code: 'colour.yellow', values: {}, message: 'yellow' },
              altitudeDeg: 30,
              azimuthDeg: 55,
              directionText: 'north-east, 3 fists up',
              isAlone: false,
              lookAlike: {
                key: 'jupiter',
                name: 'Jupiter',
                kind: 'planet',
                magnitude: -2.4,
                separationDeg: 6,
                tell: [
                  {
                    code: 'align.rival-lower-left',
                    values: { name: 'Capella', rival: 'Jupiter' },
                    message: 'Jupiter is lower than Capella and to the left.',
                  },
                ],
              },
            },
          ],
          proof: {
            key: 'moon',
            name: 'Moon',
            kind: 'moon',
            magnitude: -10,
            colour: null,
            altitudeDeg: 34,
            azimuthDeg: 181,
            directionText: 'south, 3½ fists up',
          },
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
