import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SKY_PARTS } from '../../server/tours/sky-part.ts'
import { holePage } from '../../server/web/pages/hole.ts'
import { missingPart } from '../../server/web/pages/missing.ts'
import { within } from '../../server/web/routes/within.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_HOLE, A_MISSING, A_SHUT_HOLE } from '../support/hole-data.ts'
import { ENGLISH, NAMES, VISITOR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asVisitor, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const get = (url: string) => service.app.inject(asVisitor({ url }))
const subject = { night: A_NIGHT, hole: A_HOLE, asked: null, look: 'lamp', hasTour: true, names: NAMES } as const

describe('the cloud hole as data', () => {
  it('is told to anyone, with directions, causes and sentences in words', async () => {
    const answer = await get('/api/nights/night-1/hole?open=nw,w&at=2026-11-20T17:30:00Z')
    expect(answer.statusCode).toBe(200)
    const hole = answer.json()
    expect(hole).toMatchObject({ at: '2026-11-20T17:30:00.000Z', atWall: '18:30', open: ['w', 'nw'], note: null })
    expect(hole.stations[0]).toMatchObject({
      stationId: 'station-1',
      stationName: 'By the oak',
      lines: [
        {
          targetKey: 'm13',
          targetName: 'Great cluster in Hercules',
          part: 'w',
          directionText: 'west-north-west, 2½ fists up',
          eyepieceHeightCm: 131,
          untilAtWall: '19:40',
          cause: { code: 'skyline', name: 'oak', message: 'oak' },
          isEasy: true,
        },
      ],
    })
    for (const { message } of hole.meanwhile) expect(message).toMatch(/\.$/)
  })

  it('takes no direction that there is none of, and no night', async () => {
    for (const open of ['up', 'w;nw', 'w,', 'W']) {
      const answer = await get(`/api/nights/night-1/hole?open=${encodeURIComponent(open)}`)
      expect(answer.statusCode, open).toBe(422)
      expect(JSON.stringify(answer.json())).toContain('open')
    }
    expect((await get('/api/nights/none/hole')).statusCode).toBe(404)
  })
})

describe('the page of a cloud hole', () => {
  it('has a button for each part, which toggles it alone', () => {
    const { parts } = holePage(VISITOR, subject)
    expect(parts.map(({ part }) => part).sort()).toEqual([...SKY_PARTS].sort())
    expect(parts.filter(({ isOpen }) => isOpen).map(({ text }) => text)).toEqual(['north-west', 'west'])
    const afterTouching = (part: string) => parts.find((it) => it.part === part)?.value
    expect([afterTouching('w'), afterTouching('nw'), afterTouching('n'), afterTouching('overhead')]).toEqual([
      'nw',
      'w',
      'n,w,nw',
      'w,nw,overhead',
    ])
  })

  it('says what, where in words and fists, until when and how high the eyepiece is', () => {
    const [station] = holePage(VISITOR, subject).stations
    expect(station?.things[0]).toMatchObject({
      name: 'Great cluster in Hercules',
      direction: 'west-north-west, 2½ fists up',
      when: 'until 19:40: oak',
      setups: ['Eyepiece wide, 48 times'],
      height: 'The eyepiece is 131 cm above the ground.',
    })
  })

  it('has no list and a kind sentence while nothing is open', () => {
    const page = holePage(VISITOR, { ...subject, hole: A_SHUT_HOLE })
    expect(page.stations).toEqual([])
    expect(page.note).toContain('look up again')
    expect(page.meanwhile.length).toBeGreaterThan(1)
  })

  it('works without scripts by one lamp, keeps the moment and the look, and can be read by anyone', async () => {
    const page = await get('/nights/night-1/hole?open=w,nw&at=2026-11-20T17:30:00Z')
    expect(page.statusCode).toBe(200)
    expect(page.body).toContain('data-look="lamp"')
    expect(page.body).toMatch(/<form method="get" action="\/nights\/night-1\/hole">/)
    expect(page.body).toContain('<input type="hidden" name="at" value="2026-11-20T17:30:00Z">')
    expect(page.body.match(/aria-pressed="true"/g)).toHaveLength(2)
    expect(page.body.match(/aria-pressed="false"/g)).toHaveLength(7)
    expect((await get('/nights/night-1/hole?look=day')).body).toContain('data-look="day"')
  })

  it('is linked from the night, the check and the field', async () => {
    for (const url of ['/nights/night-1', '/nights/night-1/check', '/field/night-1', '/field/night-1/station-1']) {
      expect((await get(url)).body, url).toMatch(/href="\/nights\/night-1\/hole/)
    }
  })
})

describe('the missing showpieces', () => {
  it('are told as data with a sentence each', async () => {
    const answer = await get('/api/nights/night-1/missing')
    expect(answer.statusCode).toBe(200)
    expect(answer.json().missing[1]).toMatchObject({
      targetKey: 'm31',
      barred: { fromAtWall: '18:30', untilAtWall: '20:25', cause: { code: 'high' } },
      reason: { code: 'missing.faint' },
      message:
        'Andromeda Galaxy: too high for the telescopes of this row from 18:30 to 20:25, and at best 31 newcomers of a hundred would see what there is to see.',
    })
    expect((await get('/api/nights/none/missing')).statusCode).toBe(404)
  })

  it('stand on the page of the programme', async () => {
    const { body } = await get('/nights/night-1/programme')
    expect(body).toContain('Why not?')
    expect(body).toContain('Albireo: behind trees or roofs from 19:00, and in the open for 1 minute only.')
  })

  it('are no part of a page on which none is missing, and are promised while they are worked out', () => {
    expect(missingPart(ENGLISH, [], 'Etc/UTC')).toBeNull()
    expect(missingPart(ENGLISH, null, 'Etc/UTC')?.later).toContain('worked out')
    expect(missingPart(ENGLISH, A_MISSING, 'Etc/UTC')).toMatchObject({ later: null, title: 'Why not?' })
  })
})

describe('waiting for a while', () => {
  it('gives the answer that comes in time, and null for a late one and for a failure', async () => {
    expect(await within(1000, Promise.resolve(7))).toBe(7)
    expect(await within(5, new Promise(() => {}))).toBeNull()
    expect(await within(1000, Promise.reject(new Error('no')))).toBeNull()
  })
})
