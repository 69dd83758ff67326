import { describe, expect, it } from 'vitest'
import { type BoardPage, boardPage } from '../../server/web/pages/board.ts'
import { cards } from '../../server/web/pages/cards.ts'
import { checkPage } from '../../server/web/pages/check.ts'
import { ASSUMED_NOTE } from '../../server/web/pages/kit-note.ts'
import { programmePage } from '../../server/web/pages/programme.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { telescopesPage } from '../../server/web/pages/telescopes.ts'
import { timetable } from '../../server/web/pages/timetable.ts'
import { A_NIGHT, A_TELESCOPE } from '../support/field-data.ts'
import { A_CHECK, A_FIELD, AN_EVENING, HOLDING, HOST, NAMES, TOUR, UNTOLD, VISITOR } from '../support/page-data.ts'
import { AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const subject = {
  night: A_NIGHT,
  evening: AN_EVENING,
  tour: TOUR,
  state: HOLDING,
  field: A_FIELD,
  out: [],
  go: undefined,
  phones: [],
  backups: null,
  siteCount: 1,
  telescopeCount: 1,
  names: NAMES,
  newKey: () => 'key-12345',
  beside: [],
}
const none = {
  ...subject,
  night: undefined,
  evening: undefined,
  tour: undefined,
  state: undefined,
  field: undefined,
}
const said = ({ attention }: Pick<BoardPage, 'attention'>) => attention.map(({ text }) => text)
const by = (time: string) => ({ ...HOST, now: new Date(`2026-11-20T${time}:00Z`) })

describe('the board', () => {
  it('leads a host from an empty laptop to a night, one step at a time', () => {
    const step = (more: object) => boardPage(HOST, { ...none, ...more }).next.code
    expect(step({ siteCount: 0, telescopeCount: 0 })).toBe('start')
    expect(step({ telescopeCount: 0 })).toBe('start')
    expect(step({})).toBe('night')
    expect(step({ night: A_NIGHT, evening: AN_EVENING })).toBe('build')
  })

  it('asks for paper before the night, then to set up, for the check during it, to close, and looks back after it', () => {
    const step = (time: string) => boardPage(by(time), subject).next.code
    const steps = ['12:00', '14:29', '14:30', '16:59', '17:10', '19:00', '20:14', '20:15', '20:30'].map(step)
    expect(steps.join(' ')).toBe('print print set-up set-up check check check close look-back')
  })

  it('leads a visitor to nothing that is done on the field', () => {
    const step = (time: string) => boardPage({ ...VISITOR, now: by(time).now }, subject).next.code
    expect(['14:30', '20:15', '20:30'].map(step)).toEqual(['read', 'visit', 'over'])
    const visitor = boardPage({ ...VISITOR, now: by('20:15').now }, subject)
    expect(visitor.next.href).toBe(`/tonight/${A_NIGHT.id}`)
  })

  it('shows no act of the host to a visitor', () => {
    const page = boardPage(VISITOR, { ...subject, tour: undefined })
    expect(page.next).toMatchObject({ code: 'wait', isPost: false })
    const links = page.sheet.night?.groups.flatMap((group) => group.links)
    expect(links?.map(({ href }) => href)).not.toContain(`/nights/${A_NIGHT.id}/edit`)
    expect(page.sheet.signOutText).toBeNull()
  })

  it('names trouble in the field before rules that gave way', () => {
    const [first, second] = said(boardPage(HOST, subject))
    expect(first).toBe('By the oak: cloud in the way.')
    expect(second).toBe('From 20:00 to 20:30 the Moon is up and nobody shows it.')
  })

  it('leads from each thing to where it is seen to', () => {
    const lacks = { ...TOUR, notices: [{ code: 'tour.no-chair-station' }] }
    const night = { ...A_NIGHT, stations: A_NIGHT.stations.map((station) => ({ ...station, operator: '' })) }
    const hrefs = (viewer: typeof HOST, more: object) =>
      boardPage(viewer, { ...subject, ...more }).attention.map(({ act }) => act?.href ?? null)
    expect(hrefs(HOST, {})).toEqual([`/field/${A_NIGHT.id}/station-1`, `/nights/${A_NIGHT.id}/programme`])
    const edit = `/nights/${A_NIGHT.id}/edit`
    expect(hrefs(HOST, { night, tour: lacks, field: undefined })).toEqual(['/telescopes', edit])
    expect(hrefs(VISITOR, { night, tour: lacks, field: undefined })).toEqual([null])
  })

  it('leads back to what was assumed until its telescopes are known', () => {
    const [station] = A_NIGHT.stations
    const telescope = { ...A_TELESCOPE, note: ASSUMED_NOTE }
    const night = { ...A_NIGHT, stations: [{ ...station, telescope }] } as typeof A_NIGHT
    const assumed = { href: `/nights/${night.id}/start`, text: 'Check first what was assumed' }
    expect(boardPage(by('12:00'), { ...subject, night }).next).toMatchObject({ code: 'print', also: assumed })
    expect(boardPage(by('12:00'), subject).next).toMatchObject({ code: 'print', also: null })
  })

  it('warns a quarter of an hour before something must be left', () => {
    const texts = said(boardPage(by('18:20'), subject)).join(' ')
    expect(texts).toContain('can be shown until 19:30')
    expect(said(boardPage(by('18:00'), subject)).join(' ')).not.toContain('can be shown until')
  })

  it('says nothing more of a station that has left the row', () => {
    const texts = said(boardPage(by('18:20'), { ...subject, out: ['station-1'] })).join(' ')
    expect(said(boardPage(by('18:20'), subject)).join(' ')).toMatch(/cloud in the way.*can be shown until/)
    expect(texts).not.toMatch(/cloud in the way|can be shown until/)
    expect(texts).toContain('nobody shows it')
  })

  it('leaves what goes on to the end to the next step, and asks for nothing once the night is over', () => {
    const station = A_FIELD.stations[0]
    const field = { ...A_FIELD, stations: [{ ...station, trouble: null, untilAt: new Date('2026-11-20T20:30:00Z') }] }
    const late = boardPage(by('20:20'), { ...subject, field } as typeof subject)
    expect(late.next.code).toBe('close')
    expect(said(late).join(' ')).not.toContain('can be shown until')
    expect(boardPage(by('20:30'), subject)).toMatchObject({ attention: [], calm: null, hasAttention: false })
  })
})

describe('the time table of the row', () => {
  it('fills every row to the same number of quarter hours', () => {
    const { heads, rows } = timetable(HOST, A_NIGHT, TOUR, NAMES)
    const quarters = heads.reduce((sum, { span }) => sum + span, 0)
    expect(quarters).toBe(12)
    for (const { cells } of rows) expect(cells.reduce((sum, { span }) => sum + span, 0)).toBe(quarters)
  })

  it('marks the half hour and the stop of this moment, and none when the night is over', () => {
    const marked = (time: string) => timetable(by(time), A_NIGHT, TOUR, NAMES)
    expect(marked('17:45').heads.map(({ isNow }) => isNow)).toEqual([true, false, false, false, false, false])
    expect(marked('17:45').rows[0]?.cells[0]).toMatchObject({
      isNow: true,
      until: 'until 19:30 (oak at 19:40)',
      when: '18:30 to 19:30',
    })
    expect(marked('21:00').heads.some(({ isNow }) => isNow)).toBe(false)
    expect(marked('21:00').rows[0]?.cells[0]).toMatchObject({ isNow: false, isPast: true })
  })
})

describe('the programme', () => {
  const page = programmePage(HOST, { ...subject, by: 'telescope', missing: [] })

  it('says of each stop why, until when, and what to put in', () => {
    expect(page.groups[0]?.stops[0]).toMatchObject({
      from: '18:30',
      until: 'until 19:30 (oak at 19:40)',
      chance: 'Most people see it',
      reasons: ['Now, because it goes behind the oak at 19:40.'],
      setups: ['Eyepiece wide, 48 times'],
    })
  })

  it('offers to build to the host alone', () => {
    expect(page.build?.action).toBe(`/nights/${A_NIGHT.id}/programme`)
    expect(programmePage(VISITOR, { ...subject, by: 'time', missing: [] }).build).toBeNull()
  })
})

describe('the list of the kit', () => {
  it('says one height where the legs have one, and two where they have a range', () => {
    const reachOf = (axisHighCm: number) =>
      telescopesPage(HOST, [{ ...A_TELESCOPE, axisLowCm: 70, axisHighCm }], []).telescopes[0]?.reach
    expect(reachOf(70)).toBe('Pivot of the tube at 70 cm. From a chair: yes, from the side')
    expect(reachOf(110)).toBe('Pivot of the tube at 70 cm to 110 cm. From a chair: yes, from the side')
  })
})

describe('the half-hour check', () => {
  it('puts what is going first, and each line into its own group', () => {
    const { sections } = checkPage(HOST, A_NIGHT, A_CHECK, [], NAMES)
    expect(sections.map(({ group, rows, spares }) => [group, rows.length, spares.length])).toEqual([
      ['going', 1, 0],
      ['good', 0, 1],
      ['coming', 1, 0],
      ['gone', 1, 0],
    ])
    expect(sections[0]?.rows[0]).toMatchObject({ when: 'until 19:40: oak', direction: 'west-north-west, 2½ fists up' })
    expect(sections[2]?.rows[0]).toMatchObject({ when: 'from 20:10', direction: 'below the horizon' })
    expect(sections[3]?.rows[0]?.when).toBe('too high')
  })
})

describe('paper', () => {
  it('keeps the four calls and an emergency card on the run sheet', () => {
    const sheet = runSheet(HOST, { ...subject, isStale: false, look: { paper: 'a4' } })
    expect(sheet.calls).toHaveLength(4)
    expect(sheet.emergency.map(({ label }) => label)).toContain('First aid')
    expect(sheet.dusks.map(({ time }) => time)).toEqual(['16:32', '17:05', '17:42', 'not tonight'])
  })

  it('tells the story on a card, or the facts and room for own words', () => {
    const card = (names: typeof NAMES) => cards(HOST, { ...AN_EMPTY_PRINT, tour: TOUR, names }).pages[0]?.sides[0]?.face
    expect(card(NAMES)).toMatchObject({ see: 'A round, grainy glow.', ownWords: null })
    expect(card(UNTOLD)).toMatchObject({ kind: 'Globular star cluster in Hercules', ownWords: 'In your own words:' })
    expect(card(UNTOLD)?.distance).toBe('About 23,000 light-years away')
  })

  it('gives each thing one card, however often it is shown', () => {
    const twice = { ...TOUR, stops: [...TOUR.stops, ...TOUR.stops] }
    const { pages } = cards(HOST, { ...AN_EMPTY_PRINT, tour: twice })
    expect(pages.flatMap(({ sides }) => sides.filter(({ face }) => face !== null))).toHaveLength(1)
  })
})
