import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { A_NIGHT } from '../support/field-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, asVisitor, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const FORM = { 'content-type': 'application/x-www-form-urlencoded' }
const ask = (url: string, as = asHost) => service.app.inject(as({ url }))
const post = (url: string, file: string, as = asHost) =>
  service.app.inject(
    as({ method: 'POST', url, headers: FORM, payload: new URLSearchParams({ file, take: 'true' }).toString() }),
  )
const FILE = `/nights/${A_NIGHT.id}/file`

describe('a file of a night', () => {
  it('is an attachment that the host alone may have', async () => {
    const answer = await ask(FILE)
    expect(answer.headers['content-disposition']).toBe(`attachment; filename="night-${A_NIGHT.date}.json"`)
    expect(answer.headers['content-type']).toMatch(/^application\/json/)
    expect(answer.json()).toMatchObject({ format: 'duskrow-night', version: 1, night: { title: A_NIGHT.title } })
    for (const url of [FILE, '/nights/import', '/extras/file', '/extras/file/import']) {
      expect((await ask(url, asVisitor)).statusCode).toBeGreaterThanOrEqual(300)
    }
    expect((await ask('/nights/nowhere/file')).statusCode).toBe(404)
  })

  it('is linked from the list of nights and from the report', async () => {
    expect((await ask('/nights')).body).toContain(`href="${FILE}"`)
    expect((await ask('/nights', asVisitor)).body).not.toContain(FILE)
    expect((await ask(`/nights/${A_NIGHT.id}/report`)).body).toContain(`href="${FILE}"`)
    expect((await ask('/extras')).body).toContain('href="/extras/file/import"')
  })

  it('comes in by a form, and the page then says what it changed', async () => {
    const sent = await post('/nights/import', (await ask(FILE)).body)
    expect(sent.statusCode).toBe(303)
    const page = (await ask(String(sent.headers.location))).body
    expect(page).toContain('All that is in the file is here already.')
    expect(page).toContain(`href="/nights/${A_NIGHT.id}"`)
    const told = await ask('/nights/import?marks=2&programmes=1&differs=title.hours.nonsense&took=false')
    expect(told.body).toContain('New here: 2 acts of the evening and 1 programme.')
    expect(told.body).toContain('The file says otherwise about the title and the hours.')
  })

  it('stays in the form as it was sent when it is refused, with a sentence for the place', async () => {
    const file = (await ask(FILE)).body.replace(/"latitudeDeg":[-\d.]+/, '"latitudeDeg":123')
    const answer = await post('/nights/import', file)
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('At site.latitudeDeg: It must be from -90 to 90.')
    expect(answer.body).toContain('&quot;latitudeDeg&quot;:123')
    expect(answer.body).toMatch(/name="take"[^>]* checked/)
    expect((await post('/nights/import', '{"format":"duskrow-night","version":9}')).body).toContain('a newer Duskrow')
    expect((await post('/nights/import', 'x'.repeat(8 * 1024 * 1024 + 1))).body).toContain('too large: 8 megabytes')
    expect((await post('/nights/import', '<script>alert(1)</script>')).body).not.toContain('<script>alert')
    expect((await post('/nights/import', file, asVisitor)).statusCode).toBeGreaterThanOrEqual(300)
  })
})

describe('a file of things and words', () => {
  it('is saved and brought in the same way', async () => {
    const saved = await ask('/extras/file')
    expect(saved.headers['content-disposition']).toBe('attachment; filename="things-of-our-own.json"')
    const sent = await post('/extras/file/import', saved.body)
    expect(sent.statusCode).toBe(303)
    expect((await ask(String(sent.headers.location))).body).toContain('All that is in the file is here already.')
    expect((await post('/extras/file/import', (await ask(FILE)).body)).body).toContain('another kind of file')
  })
})
