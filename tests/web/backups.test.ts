import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Desk } from '../../server/desk/desk.ts'
import { backupAttention, backupText } from '../../server/web/pages/backup-text.ts'
import { A_BAD_STATUS, A_COPY, A_STATUS } from '../support/fake-backups.ts'
import { ENGLISH, HOST } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { unescaped } from '../support/phone-service.ts'
import { asHost, asVisitor } from '../support/web.ts'

let app: FastifyInstance
let desk: Desk
beforeAll(async () => {
  ;({ app, desk } = await pagedApp())
})
afterAll(() => app.close())

const AT_NIGHT = { ...HOST, isRehearsal: false }
const page = async (url: string) => unescaped((await app.inject(asHost({ url }))).body)
const post = (url: string, payload = '') =>
  app.inject(asHost({ method: 'POST', url, payload, headers: { 'content-type': 'application/x-www-form-urlencoded' } }))

describe('what the board says of the copies', () => {
  it('is when the last one was made, and whether it is in the second folder', () => {
    const said = (more: object) => backupText(AT_NIGHT, { ...A_STATUS, ...more })
    expect(said({})).toBe('Last copy: 18:40, in the second folder too.')
    expect(said({ second: null })).toBe('Last copy: 18:40.')
    expect(said({ second: { trouble: 'missing', lastAt: A_COPY.madeAt } })).toBe(
      'Last copy: 18:40, not in the second folder yet.',
    )
    expect(said({ lastAt: new Date('2026-11-13T17:40:00Z'), second: null })).toBe('Last copy: 13 November, 18:40.')
    expect(said({ lastAt: null })).toBe('No copy has been made yet.')
    expect(backupText(HOST, A_STATUS)).toBe('Last copy: 18:40 by the laptop’s own clock, in the second folder too.')
  })

  it('is nothing to attend to while all is well, and every trouble otherwise', () => {
    expect(backupAttention(ENGLISH, A_STATUS)).toEqual([])
    const beside = { trouble: null, lastAt: A_COPY.madeAt, isOnSameDisk: true }
    expect(backupAttention(ENGLISH, { ...A_STATUS, second: beside })).toEqual([
      'The second folder for copies lies on the laptop’s own disk. Is the stick in? If the laptop breaks, those copies are gone with it.',
    ])
    const lines = backupAttention(ENGLISH, A_BAD_STATUS)
    expect(lines).toHaveLength(5)
    expect(lines[1]).toBe('Nothing has been copied since 18:40, though things have changed.')
    expect(lines[4]).toContain('made by a newer Duskrow')
  })

  it('is said to the host alone', async () => {
    expect(await page('/')).toContain('<a href="/backups">Last copy: ')
    expect((await app.inject(asVisitor({ url: '/' }))).body).not.toContain('Last copy')
  })
})

describe('the page of the copies', () => {
  it('lists them with what is in them, and asks once more before it goes back', async () => {
    const list = await page('/backups')
    expect(list).toContain('2 nights, 140 acts of the field, 1.2\u00a0MB')
    expect(list).toContain(`href="/backups/${A_COPY.name}"`)
    const sure = await page(`/backups/${A_COPY.name}`)
    expect(sure).toMatch(/Go back to the copy of 18:40\?/)
    expect(sure).toContain(`method="post" action="/backups/${A_COPY.name}"`)
    expect(desk.backups.status().goesBackTo).toBeNull()
  })

  it('notes the wish, says what to do, and takes it back', async () => {
    const answer = await post(`/backups/${A_COPY.name}`)
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/backups'])
    expect(await page('/backups')).toContain('it goes back to the copy of 18:40')
    expect(await page('/')).toContain('it goes back to the copy of 18:40')
    expect((await post('/backups', 'act=stay')).statusCode).toBe(303)
    expect(desk.backups.status().goesBackTo).toBeNull()
  })

  it('makes a copy now, and knows no other act and no other copy', async () => {
    expect((await post('/backups', 'act=copy')).statusCode).toBe(303)
    expect((await post('/backups', 'act=burn')).statusCode).toBe(422)
    expect((await post('/backups/other.db')).statusCode).toBe(404)
    expect((await app.inject(asHost({ url: '/backups/..%2Fduskrow.db' }))).statusCode).toBe(404)
  })
})

it('is told by the health of the service, without the places where copies lie', async () => {
  const { backups } = (await app.inject(asVisitor({ url: '/api/health' }))).json()
  expect(backups).toEqual({
    isTimed: true,
    lastAt: '2026-11-14T17:40:00.000Z',
    isLate: false,
    trouble: null,
    second: { trouble: null, lastAt: '2026-11-14T17:40:00.000Z', isOnSameDisk: false },
  })
})
