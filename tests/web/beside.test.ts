import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { besideNow, besidePart, besideShort } from '../../server/web/pages/beside.ts'
import { fieldPage } from '../../server/web/pages/field.ts'
import { fieldRowPage } from '../../server/web/pages/field-row.ts'
import { programmePage } from '../../server/web/pages/programme.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { stationSheets } from '../../server/web/pages/station-sheets.ts'
import { A_BESIDE, A_MIXED_NIGHT, BESIDE_STATIONS } from '../support/beside-data.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { BARE_FIELD, FIELD } from '../support/field-subject.ts'
import { A_FIELD, A_STATION_NOW, AN_EVENING, ENGLISH, HOLDING, HOST, NAMES, TOUR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asVisitor, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const get = (url: string) => service.app.inject(asVisitor({ url }))
const subject = { night: A_MIXED_NIGHT, names: NAMES, beside: A_BESIDE }
const paper = {
  ...subject,
  evening: AN_EVENING,
  tour: TOUR,
  isStale: false,
  checks: [],
  look: { paper: 'a4' as const },
}
const field = { ...FIELD, news: BARE_FIELD.news }

describe('the stations beside the telescopes as data', () => {
  it('are told to anyone by half hour, with names, clock times and sentences', async () => {
    const answer = await get('/api/nights/night-1/beside')
    expect(answer.statusCode).toBe(200)
    const { version, zone, halfHours } = answer.json()
    expect([version, zone, halfHours.length]).toEqual([1, 'Europe/Berlin', A_BESIDE.length])
    expect(halfHours[0]).toMatchObject({ stationId: 'guide', kind: 'bare-eye', fromAtWall: '18:30', toAtWall: '19:00' })
    expect(halfHours[0].lines).toMatchObject([
      {
        what: 'sight',
        targetName: 'Great cluster in Hercules',
        directionText: 'west-north-west, 2½ fists up',
        leave: { atWall: '19:40', cause: { code: 'skyline', name: 'oak', message: 'oak' } },
        remarks: [{ code: 'beside.shown-at', message: 'By the oak shows it.' }, { code: 'beside.glow' }],
      },
      { what: 'pass', fromAtWall: '18:42', toAtWall: '18:48', fromPointText: 'west', toPointText: 'east-north-east' },
    ])
    expect(halfHours[1]).toMatchObject({ lines: [], note: { code: 'beside.nothing-there' } })
    expect(halfHours[3].lines[0]).toMatchObject({
      what: 'picture',
      aim: 'whole',
      remarks: [{ values: { newcomers: 62 } }],
    })
    expect(halfHours[4].lines).toMatchObject([
      { what: 'elsewhere', stationName: 'By the oak', targetName: 'Great cluster in Hercules', fromAtWall: '18:30' },
      { what: 'elsewhere', fromAtWall: '18:45', toAtWall: '19:00' },
      { what: 'prompt', remark: { code: 'beside.ask-cluster' } },
    ])
    for (const { lines } of halfHours)
      for (const { remarks = [], remark } of lines)
        for (const { message } of remark ? [remark] : remarks) expect(message).toMatch(/[.?]$/)
    expect((await get('/api/nights/none/beside')).statusCode).toBe(404)
  })
})

describe('the page of the programme', () => {
  const groups = (by: 'telescope' | 'time', beside: typeof A_BESIDE | null = A_BESIDE) =>
    programmePage(HOST, { ...paper, beside, state: HOLDING, by, newKey: () => 'key-12345', missing: [] })

  it('has no empty group for them, but a part of its own in both ways', () => {
    expect(groups('telescope').groups.map(({ heading }) => heading)).toEqual(['By the oak'])
    for (const by of ['telescope', 'time'] as const) {
      const { beside } = groups(by)
      expect(beside?.groups.map(({ heading, note }) => [heading, note])).toEqual([
        ['Star walk', 'Guide without a telescope, Yusuf'],
        ['Two tripods', 'Binoculars'],
        ['White sheet', 'Screen'],
        ['Ask us', 'Question table'],
      ])
      expect(beside?.later).toBeNull()
    }
  })

  it('still shows what a station had on the programme as a telescope when it is one no longer', () => {
    const [first, ...rest] = A_MIXED_NIGHT.stations
    const turned = { ...A_MIXED_NIGHT, stations: [{ ...first, kind: 'screen', telescope: null } as const, ...rest] }
    const page = programmePage(HOST, {
      ...paper,
      night: turned as typeof A_MIXED_NIGHT,
      state: HOLDING,
      by: 'telescope',
      newKey: () => 'key-12345',
      missing: [],
    })
    expect(page.groups.map(({ stops }) => stops.length)).toEqual([1])
  })

  it('says of each thing where, until when, how many see it, and why', () => {
    const [guide, glass, screen, table] = besidePart(HOST, subject)?.groups ?? []
    expect(guide?.rows[0]).toMatchObject({ time: '18:30', note: null })
    expect(guide?.rows[0]?.things[0]).toEqual({
      name: 'Great cluster in Hercules',
      href: '/nights/night-1/objects/m13',
      direction: 'west-north-west, 2½ fists up',
      when: 'until 19:40: oak',
      chance: 'Anyone sees it',
      texts: ['By the oak shows it.', 'A soft glow: look a little beside it.'],
    })
    expect(guide?.rows[0]?.things[1]).toMatchObject({
      href: '/objects/own-bare-eye',
      when: '18:42 to 18:48',
      direction: 'passes over from west to east-north-east',
    })
    expect(guide?.rows[1]).toMatchObject({ things: [], note: 'Nothing that newcomers would see stands in the open.' })
    expect(glass?.rows[0]?.things[0]).toMatchObject({ when: 'from 18:41', chance: 'Seen with a little help' })
    expect(screen?.rows[0]?.things[0]?.texts[0]).toContain('about 62 newcomers of a hundred')
    expect(table?.rows[0]?.things.map(({ texts }) => texts)).toEqual([
      [
        'Send people on: Great cluster in Hercules at By the oak and Great cluster in Hercules at Star walk (18:45 to 19:00).',
      ],
      ['“What is a cluster?” A family of suns that keep together.'],
    ])
  })

  it('promises what is still worked out, and has no such part for a row of telescopes', () => {
    expect(groups('telescope', null).beside).toMatchObject({
      later: 'What these stations show is still being worked out. Open this page again in a moment.',
    })
    expect(besidePart(HOST, { ...subject, night: A_NIGHT })).toBeNull()
  })

  it('is written with all of it', async () => {
    service.kept.nights[0] = A_MIXED_NIGHT
    const { body } = await get('/nights/night-1/programme')
    service.kept.nights[0] = A_NIGHT
    for (const text of ['Star walk', 'until 19:40: oak', 'Send people on', 'about 62 newcomers'])
      expect(body).toContain(text)
  })
})

describe('paper', () => {
  it('has them on the run sheet in one line each', () => {
    expect(besideShort(ENGLISH, subject)).toEqual([
      { station: 'Star walk:', text: 'Great cluster in Hercules, nothing.' },
      { station: 'Two tripods:', text: 'Great cluster in Hercules.' },
      { station: 'White sheet:', text: 'Great cluster in Hercules.' },
      { station: 'Ask us:', text: 'Answers questions and sends people on.' },
    ])
    expect(runSheet(HOST, paper)).toMatchObject({
      besideLabel: 'Beside the telescopes, by half hour from 18:30',
      beside: { length: 4 },
      isDense: true,
    })
    expect(runSheet(HOST, { ...paper, night: A_NIGHT, beside: [] })).toMatchObject({
      beside: [],
      isDense: false,
    })
  })

  it('writes a sheet of one or two stops larger, and no list by the half hour', () => {
    const roomyWith = (count: number) => {
      const stops = paper.tour.stops.filter(({ stationId }) => stationId === 'station-1').slice(0, 1)
      const tour = { ...paper.tour, stops: stops.flatMap((stop) => Array.from({ length: count }, () => stop)) }
      return stationSheets(HOST, { ...paper, tour }).sheets.map(({ isRoomy }) => isRoomy)
    }
    expect(roomyWith(2)).toEqual([true, false, false, false, false])
    expect(roomyWith(3)).toEqual([false, false, false, false, false])
  })

  it('has a sheet for each of them', () => {
    const { sheets } = stationSheets(HOST, paper)
    expect(sheets.map(({ station, telescope, isEmpty }) => [station, telescope, isEmpty])).toEqual([
      ['By the oak', 'Old eight inch', false],
      ['Star walk', 'Guide without a telescope', false],
      ['Two tripods', 'Binoculars', false],
      ['White sheet', 'Screen', false],
      ['Ask us', 'Question table', false],
    ])
    expect(sheets[0]?.halves).toEqual([])
    expect(sheets[1]?.halves.map(({ time }) => time)).toEqual(['18:30', '19:00'])
    expect(sheets[1]?.stops).toEqual([])
  })
})

describe('the field', () => {
  const at = (time: string) => new Date(`2026-11-20T${time}:00Z`)
  const idle = (id: string) => ({
    ...A_STATION_NOW,
    stationId: id,
    showing: null,
    untilAt: null,
    next: null,
    trouble: null,
  })
  const now = (time: string) => ({
    ...field,
    field: { ...A_FIELD, at: at(time), stations: [A_STATION_NOW, ...BESIDE_STATIONS.map(({ id }) => idle(id))] },
  })

  it('names what they show now on the page of the row', () => {
    expect(
      fieldRowPage(HOST, now('17:45'))
        .stations.slice(1)
        .map((station) => station.now),
    ).toEqual([
      'Great cluster in Hercules',
      'Great cluster in Hercules',
      'Great cluster in Hercules',
      'Answers questions',
    ])
    const [guide] = BESIDE_STATIONS
    expect(guide && fieldPage(HOST, now('17:45'), guide).now).toBe('Great cluster in Hercules')
  })

  it('says that nothing is planned where nothing is, or while it is worked out', () => {
    expect(fieldRowPage(HOST, now('18:10')).stations[1]?.now).toBe('Nothing is planned now')
    expect(fieldRowPage(HOST, { ...now('17:45'), beside: [] }).stations[1]?.now).toBe('Nothing is planned now')
    expect(besideNow(ENGLISH, NAMES, A_BESIDE, 'guide', at('18:00'))).toBeNull()
    expect(besideNow(ENGLISH, NAMES, A_BESIDE, 'station-1', at('17:45'))).toBeNull()
  })
})
