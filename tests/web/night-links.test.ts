import Fastify from 'fastify'
import { describe, expect, it } from 'vitest'
import { SHIPPED_LIMITS } from '../../server/tours/go-limits.ts'
import { checkPage } from '../../server/web/pages/check.ts'
import { checklistsForm } from '../../server/web/pages/checklists-form.ts'
import { goLimitsPage } from '../../server/web/pages/go-limits.ts'
import { nightFormPage } from '../../server/web/pages/night-form.ts'
import { nightNav, nightSheet } from '../../server/web/pages/night-links.ts'
import { startMadePage } from '../../server/web/pages/start-made.ts'
import { pageWriter, readViews } from '../../server/web/views.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_CHECK, HOST, NAMES, TOUR, VISITOR } from '../support/page-data.ts'

const PAGE = { night: A_NIGHT, hasTour: true, here: 'programme' } as const
const textsOf = (viewer = HOST, page: Parameters<typeof nightNav>[1] = PAGE) =>
  nightNav(viewer, page).groups.map(({ heading, links }) => [heading, ...links.map(({ text }) => text)])

describe('the pages of a night', () => {
  it('stand by what they are for: before the evening, during it and after it', () => {
    expect(textsOf()).toEqual([
      [
        'Before the evening',
        ...['Change the night', 'Visiting class', 'Wishes', 'Programme', 'The line', 'One object', 'Papers', 'Phones'],
        'Go or no-go',
      ],
      [
        'During the evening',
        ...['Setting up', 'Checklists', 'Stars to align on', 'Field page', 'Half-hour check', 'Cloud hole'],
        ...['Thin cloud', 'Change of plan', 'Why it misses', 'Reading aloud'],
      ],
      ['After the evening', 'Report'],
    ])
  })

  it('are without a programme those that need none, and for a visitor those that are read, under no empty heading', () => {
    expect(textsOf(HOST, { ...PAGE, hasTour: false })[0]).not.toContain('Papers')
    const ofVisitor = textsOf(VISITOR, { ...PAGE, hasTour: false })
    expect(ofVisitor).toEqual([
      ['Before the evening', 'Programme'],
      [
        'During the evening',
        ...['Setting up', 'Checklists', 'Stars to align on', 'Cloud hole', 'Thin cloud', 'Why it misses'],
        'Reading aloud',
      ],
    ])
  })

  it('mark the one that is open, and no other', () => {
    const { board, groups } = nightNav(HOST, PAGE)
    const marked = [board, ...groups.flatMap(({ links }) => links)].filter(({ isHere }) => isHere)
    expect(marked.map(({ text }) => text)).toEqual(['Programme'])
    expect(nightNav(HOST, { ...PAGE, here: 'board' }).board.isHere).toBe(true)
  })

  it('stand on the forms of a night too, but not on that of a new one', () => {
    const blank = { values: {}, problems: [] }
    const form = { state: blank, halfHours: [], stationRows: 1, sites: [], telescopes: [], factors: [] }
    const of = { night: A_NIGHT, hasTour: true }
    const sheets = [
      nightFormPage(HOST, { ...form, night: of }).sheet,
      checklistsForm(HOST, {
        ...of,
        checklist: { items: [], isOwn: false, done: new Set<string>(), earlier: null },
        rowCount: 1,
        state: blank,
      }).sheet,
      goLimitsPage(HOST, { ...of, limits: SHIPPED_LIMITS, state: blank }).sheet,
      startMadePage(HOST, { night: A_NIGHT, tour: TOUR, isStale: false, isTown: true }).sheet,
    ]
    const marked = sheets.map(({ night }) => night?.groups.flatMap(({ links }) => links.filter(({ isHere }) => isHere)))
    expect(marked.map((links) => links?.map(({ text }) => text))).toEqual([['Change the night'], [], [], []])
    expect(nightFormPage(HOST, { ...form, night: null }).sheet.night).toBeNull()
  })

  it('stand above the content, folded on a phone; on the board open below it', () => {
    expect(nightNav(HOST, PAGE)).toMatchObject({ isBelow: false, isOpen: false })
    expect(nightNav(HOST, { ...PAGE, here: 'board' })).toMatchObject({ isBelow: true, isOpen: true })
  })

  it('stand below by the lamp, and lead on by the lamp to every page that knows it', () => {
    const sheet = nightSheet(HOST, 'Check', { ...PAGE, here: 'check', look: 'lamp' })
    expect(sheet).toMatchObject({ isLamp: true, night: { isBelow: true, isOpen: false } })
    const hrefs = sheet.night?.groups.flatMap(({ links }) => links.map(({ href }) => href)) ?? []
    expect(hrefs).toContain('/nights/night-1/set-up?look=lamp')
    expect(hrefs).toContain('/field/night-1?look=lamp')
    expect(hrefs).toContain('/nights/night-1/papers')
    expect(nightSheet(HOST, 'Check', PAGE)).toMatchObject({ isLamp: false, look: 'day' })
  })
})

describe('the frame of a page', () => {
  const partsOf = async (look: 'day' | 'lamp') => {
    const app = Fastify()
    await readViews(app)
    const page = checkPage(HOST, A_NIGHT, A_CHECK, [], NAMES, [], look)
    const html = await pageWriter({ path: (name) => `/assets/${name}` })(app, 'check', page)
    return [...html.matchAll(/<main|class="masthead"|class="night-links/g)].map(([part]) => part)
  }

  it('has the ways elsewhere first by day, and the content first by the lamp', async () => {
    expect(await partsOf('day')).toEqual(['class="masthead"', 'class="night-links', '<main'])
    expect(await partsOf('lamp')).toEqual(['<main', 'class="night-links', 'class="masthead"'])
  })
})
