import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Problem } from '../../server/errors.ts'
import { type ChecklistItem, checklistProblems, timedItems } from '../../server/tours/checklist.ts'
import { SHIPPED_ITEMS } from '../../server/tours/checklist-items.ts'
import { NO_VISIT } from '../../server/tours/class-visit.ts'
import { nightHours } from '../../server/tours/hours.ts'
import { NO_NOTES } from '../../server/tours/site-notes.ts'
import { checklistSheet } from '../../server/web/pages/checklist-sheet.ts'
import { checklistsPage } from '../../server/web/pages/checklists.ts'
import { checklistsForm } from '../../server/web/pages/checklists-form.ts'
import { pagesOf } from '../../server/web/pages/paper-pages.ts'
import { nightSiteNotes, siteNotesPiece } from '../../server/web/pages/site-notes.ts'
import { checklistValues } from '../../server/web/routes/checklists-draft.ts'
import { A_NIGHT, A_SITE } from '../support/field-data.ts'
import { AN_OWN_ITEM, SOME_NOTES } from '../support/note-pages.ts'
import { AN_EVENING, HOST, VISITOR } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'
import { asHost, asVisitor, formPost, type TestApp, testApp } from '../support/web.ts'

const MINUTE_MS = 60_000
describe('the times of a list', () => {
  const minutesOf = (sunsetAt: Date | null, sunriseAt: Date | null = null) =>
    Object.fromEntries(timedItems(SHIPPED_ITEMS, A_NIGHT, { sunsetAt, sunriseAt }).map(({ item, at }) => [item.id, at]))

  it('are counted from arrival, sunset, opening and closing, in the order of the clock', () => {
    const timed = timedItems(SHIPPED_ITEMS, A_NIGHT, AN_EVENING)
    const times = timed.map(({ at }) => at.getTime())
    expect(times).toEqual(times.toSorted((a, b) => a - b))
    const at = minutesOf(AN_EVENING.sunsetAt)
    // Opens at 18:30 by the clocks of the site, an hour ahead of UTC; three hours before is the earliest arrival.
    expect(at.sun?.toISOString()).toBe('2026-11-20T14:30:00.000Z')
    expect(at['caps-off']).toEqual(AN_EVENING.sunsetAt)
    expect(at.charge?.toISOString()).toBe('2026-11-19T17:30:00.000Z')
    expect(at.sweep?.toISOString()).toBe('2026-11-20T21:00:00.000Z')
  })

  it('put the Sun before everything else of its minute, wherever it stands in the list', () => {
    const timed = timedItems(SHIPPED_ITEMS.toReversed(), A_NIGHT, AN_EVENING)
    const sunAt = timed.find(({ item }) => item.id === 'sun')?.at.getTime() ?? 0
    const together = timed.filter(({ at }) => at.getTime() === sunAt).map(({ item }) => item.id)
    expect(together).toEqual(['sun', 'ground'])
  })

  it('begin with the arrival where the Sun has set before it, or does not set', () => {
    const early = new Date((AN_EVENING.sunsetAt?.getTime() ?? 0) - 180 * MINUTE_MS)
    for (const sunsetAt of [early, null]) {
      const at = minutesOf(sunsetAt)
      expect(at['caps-off']).toEqual(at.sun)
    }
  })
})

describe('the caps before sunrise', () => {
  const capsAt = (hours: number) => {
    const closesAt = nightHours(A_NIGHT).closesAt.getTime()
    const sunriseAt = new Date(closesAt + hours * 60 * MINUTE_MS)
    const timed = timedItems(SHIPPED_ITEMS, A_NIGHT, { sunsetAt: null, sunriseAt })
    return timed.find(({ item }) => item.id === 'caps-on')?.at.getTime() ?? null
  }

  it('stand on the list half an hour ahead where the Sun rises before all is packed, and nowhere else', () => {
    expect(capsAt(1)).toBe(nightHours(A_NIGHT).closesAt.getTime() + 30 * MINUTE_MS)
    expect(capsAt(2)).toBeNull()
  })
})

describe('a list as typed in', () => {
  it('ships without a problem, every item with an owner', () => {
    expect(checklistProblems(SHIPPED_ITEMS)).toEqual([])
    expect(new Set(SHIPPED_ITEMS.map(({ id }) => id)).size).toBe(SHIPPED_ITEMS.length)
  })

  it('names the line and the field that is wrong', () => {
    const wrong = (item: Partial<ChecklistItem>) =>
      checklistProblems([SHIPPED_ITEMS[0], { ...AN_OWN_ITEM, ...item }]).map(({ field, key }) => `${field} ${key}`)
    expect(wrong({ text: '' })).toEqual(['items.1.text problem.item-blank'])
    expect(wrong({ owner: { role: 'named', name: '' } })).toEqual(['items.1.owner.name problem.owner-blank'])
    expect(wrong({ offsetMin: 9_000 })).toEqual(['items.1.offsetMin problem.range'])
    expect(wrong({ offsetMin: Number.NaN })).toMatchObject([/^items\.1\.offsetMin problem\.type/])
  })
})

describe('the form of a list', () => {
  const rowsOf = (items: readonly ChecklistItem[], problems: readonly Problem[] = []) => {
    const checklist = { items, isOwn: true, done: new Set<string>(), earlier: null }
    const state = { values: checklistValues(items), problems }
    return checklistsForm(HOST, { night: A_NIGHT, hasTour: true, checklist, rowCount: items.length + 1, state }).rows
  }

  it('folds each line behind what, who and when, under the part that it belongs to', () => {
    const rows = rowsOf([...SHIPPED_ITEMS, AN_OWN_ITEM])
    expect(rows.flatMap(({ heading }) => heading ?? [])).toEqual([
      'Equipment',
      'Batteries',
      'Safety',
      'After the night',
    ])
    expect(rows[0]).toMatchObject({ heading: 'Equipment', says: 'Operator, 24 h before opening', isOpen: false })
    expect(rows.map(({ says }) => says)).toEqual(expect.arrayContaining(['Host, on arriving', 'Operator, at sunset']))
    expect(rows.at(-2)).toMatchObject({ heading: null, title: AN_OWN_ITEM.text, says: 'Jo, 40 min after closing' })
    expect(rows.at(-1)).toMatchObject({ heading: null, title: 'A line of your own', says: '' })
  })

  it('unfolds the line in which something has to be put right', () => {
    const rows = rowsOf([...SHIPPED_ITEMS], [{ field: 'items.2.offsetMin', key: 'problem.type' }])
    expect(rows.flatMap(({ isOpen }, i) => (isOpen ? [i] : []))).toEqual([2])
  })
})

describe('papers of the site and the lists', () => {
  it('ask for what is not known and leave a line for it', () => {
    const full = nightSiteNotes(HOST, A_FULL_PRINT)
    expect(full.lines.find(({ label }) => label === 'Lamps')?.answer).toBe(SOME_NOTES.lamps)
    expect(full.own).toEqual(SOME_NOTES.own)
    const bare = siteNotesPiece(HOST, A_SITE, NO_NOTES)
    expect(bare.lines).toHaveLength(10)
    expect(bare.lines.every(({ answer, ask }) => answer === null && ask.endsWith('?'))).toBe(true)
  })

  it('have the Sun above the list, the day where it is another, and an owner in every line', () => {
    const sheet = checklistSheet(HOST, A_FULL_PRINT)
    expect(sheet.sun).toMatch(/^The Sun first/)
    expect(sheet.local).toMatch(/come first/)
    const days = sheet.lines.flatMap(({ time }) => /^\w+day \d/.exec(time) ?? [])
    expect([sheet.lines[0]?.time, sheet.lines[1]?.time, days.length]).toEqual(['Thursday 18:30', '18:30', 2])
    expect(sheet.lines.find(({ text }) => text === AN_OWN_ITEM.text)).toMatchObject({ time: '22:10', owner: 'Jo' })
    expect(sheet.lines.every(({ owner }) => owner !== '')).toBe(true)
    expect(pagesOf('checklists', checklistSheet(HOST, AN_EMPTY_PRINT), 'letter')).toBe(1)
  })
})

describe('the pages', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await testApp()
  })
  afterAll(() => service.app.close())
  const post = (url: string, fields: Readonly<Record<string, string>>) =>
    service.app.inject(asHost(formPost(url, fields)))

  it('keep notes of a site, and all that was typed where something is too long', async () => {
    expect((await post('/sites/site-1/notes', { lamps: ' Two ', own: 'Key\r\n\r\nGate' })).statusCode).toBe(303)
    expect(service.desk.notes.site('site-1')).toEqual({ ...NO_NOTES, lamps: 'Two', own: ['Key', 'Gate'] })
    expect((await post('/sites/site-1/notes', { lamps: 'x'.repeat(201) })).statusCode).toBe(422)
    expect((await post('/sites/site-1/notes', { own: 'x'.repeat(121) })).statusCode).toBe(422)
    expect(service.desk.notes.site('site-1').lamps).toBe('Two')
    const print = { url: '/sites/site-1/notes/print?paper=letter' }
    expect((await service.app.inject(asHost(print))).statusCode).toBe(200)
    expect((await service.app.inject(asVisitor(print))).statusCode).toBe(403)
  })

  it('change, drop and add lines of a list, and go back to the one that ships', async () => {
    const rows = SHIPPED_ITEMS.length + 1
    const values = { ...checklistValues(SHIPPED_ITEMS), rows: String(rows) }
    const mine = {
      [`items.${rows - 1}.text`]: 'Feed the dog',
      [`items.${rows - 1}.group`]: 'after',
      [`items.${rows - 1}.owner.role`]: 'named',
      [`items.${rows - 1}.from`]: 'closes-before',
      [`items.${rows - 1}.offsetMin`]: '15',
    }
    const name = `items.${rows - 1}.owner.name`
    const url = '/nights/night-1/checklists'
    expect((await post(url, { ...values, ...mine, 'items.0.drop': 'true' })).statusCode).toBe(422)
    expect((await post(url, { ...values, ...mine, [name]: 'Jo', 'items.0.drop': 'true' })).statusCode).toBe(303)
    const { items, isOwn } = service.desk.notes.checklist('night-1')
    expect([isOwn, items.length, items.some(({ id }) => id === SHIPPED_ITEMS[0]?.id)]).toEqual([true, rows - 1, false])
    expect(items.at(-1)).toMatchObject({ text: 'Feed the dog', offsetMin: -15, owner: { role: 'named', name: 'Jo' } })
    expect((await post(url, { act: 'more', rows: '3' })).statusCode).toBe(200)
    expect((await post(`${url}/take-over`, {})).statusCode).toBe(404)
    expect((await post(`${url}/forget`, {})).statusCode).toBe(303)
    expect(service.desk.notes.checklist('night-1').isOwn).toBe(false)
  })

  it('keep ticks, however often they are sent', async () => {
    const url = '/nights/night-1/checklists/ticks'
    const done = () => [...service.desk.notes.checklist('night-1').done]
    for (const fields of [{ tick: 'sun' }, { tick: 'sun', look: 'lamp' }])
      expect((await post(url, fields)).statusCode).toBe(303)
    expect(done()).toEqual(['sun'])
    expect((await post(url, { untick: 'sun' })).headers.location).toMatch(/look=day#item-sun$/)
    expect(done()).toEqual([])
    expect((await post(url, { tick: 'no-such' })).statusCode).toBe(404)
  })

  it('let only those tick who have joined', () => {
    const subject = {
      night: A_NIGHT,
      checklist: service.desk.notes.checklist('night-1'),
      sunsetAt: null,
      sunriseAt: null,
      sun: 'sets',
      hasTour: true,
      look: 'day',
    } as const
    expect([HOST, VISITOR].map((viewer) => checklistsPage(viewer, subject).mayTick)).toEqual([true, false])
    expect(checklistsPage(VISITOR, subject).ways.map(({ href }) => href)).not.toContain('/sites/site-1/notes')
  })

  it('keep what is agreed with a school', async () => {
    expect((await post('/nights/night-1/class', { decides: 'Ms Weaver', adultsPerGroup: '2' })).statusCode).toBe(303)
    expect(service.desk.notes.visit('night-1')).toEqual({
      ...NO_VISIT,
      decides: 'Ms Weaver',
      adultsPerGroup: 2,
      asksPhotos: false,
    })
    for (const adultsPerGroup of ['many', '0', '1.5']) {
      expect((await post('/nights/night-1/class', { adultsPerGroup })).statusCode).toBe(422)
    }
    expect((await service.app.inject(asHost({ url: '/nights/night-1/class' }))).statusCode).toBe(200)
  })
})
