import { beforeEach, describe, expect, it } from 'vitest'
import { MOST_LETTERS } from '../../server/desk/group-text.ts'
import { handout } from '../../server/web/pages/handout.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { HOST } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

const PAGE = `/nights/${A_NIGHT.id}/papers`
const HANDOUT = `/nights/${A_NIGHT.id}/print/handout`
const OURS = 'First Fridays <behind> the mill'
let service: TestApp
beforeEach(async () => {
  service = await pagedApp()
})

const page = async (url: string, as = asHost) => (await service.app.inject(as({ url }))).body
const post = (group: string, as = asHost) => service.app.inject(as(formPost(`${PAGE}/group`, { group })))

describe('how to find the group again', () => {
  it('is said once by the host, and stands on the handout in place of the lines to write on', async () => {
    expect(await page(HANDOUT)).toContain('handout-fill')
    const answer = await post(`  ${OURS}\n`)
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `${PAGE}#group`])
    expect(service.desk.groupText.find()).toBe(OURS)
    const printed = await page(HANDOUT, asVisitor)
    expect(printed).toContain('First Fridays &lt;behind&gt; the mill')
    expect(printed).not.toContain('handout-fill')
    expect(await page(PAGE)).toContain('value="First Fridays &lt;behind&gt; the mill"')
  })

  it('may be as long as the column, and is given back with a sentence when it is longer', async () => {
    expect((await post('x'.repeat(MOST_LETTERS))).statusCode).toBe(303)
    const long = 'y'.repeat(MOST_LETTERS + 1)
    const answer = await post(long)
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain(long)
    expect(answer.body).toContain(`It is too long: ${MOST_LETTERS} letters at most.`)
    expect(service.desk.groupText.find()).toBe('x'.repeat(MOST_LETTERS))
  })

  it('is asked of nobody but the host', async () => {
    expect((await post(OURS, asVisitor)).statusCode).toBe(403)
    expect(await page(PAGE, asVisitor)).not.toContain('papers/group')
    expect(service.desk.groupText.find()).toBe('')
  })

  it('leaves the lines where it is empty', () => {
    expect(handout(HOST, A_FULL_PRINT).again).toBe(A_FULL_PRINT.groupText)
    expect(handout(HOST, { ...A_FULL_PRINT, groupText: '' }).again).toBe('')
  })
})
