import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { BAR_CHART_MM, barChart } from '../../server/drawings/bar-chart.ts'
import { csvText } from '../../server/web/csv.ts'
import { reportPage } from '../../server/web/pages/report.ts'
import { reportCsv } from '../../server/web/pages/report-csv.ts'
import { seasonPage } from '../../server/web/pages/season.ts'
import { ENGLISH, HOST, NAMES, VISITOR } from '../support/page-data.ts'
import { A_REPORT, A_SEASON, AN_EARLY_REPORT } from '../support/report-pages.ts'
import { asHost, asVisitor, testApp } from '../support/web.ts'

const BLANK = { values: {}, problems: [] }
const page = (viewer = HOST, report = A_REPORT) =>
  reportPage(viewer, { report, names: NAMES, hasTour: true, state: BLANK })

describe('a list as CSV', () => {
  it('keeps every sign by which a spreadsheet takes a text for a formula from being one, and gives texts back whole', () => {
    const texts = ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', 'a, "b"\r\nc', ' plain ', '']
    const written = csvText([texts, [-3, null, 'x']])
    expect(written.endsWith('\r\n')).toBe(true)
    const [first, second]: string[][] = parse(written, { relax_column_count: true })
    expect(first).toEqual(["'=1+1", "'+1", "'-1", "'@SUM(A1)", "'\t=1", 'a, "b"\r\nc', ' plain ', ''])
    expect(second).toEqual(['-3', '', 'x'])
    for (const cell of first ?? []) expect(cell).not.toMatch(/^[=+\-@\t\r]/)
  })

  it('holds all of a report under one head', () => {
    const lines: string[][] = parse(
      csvText(reportCsv({ words: ENGLISH, names: NAMES, report: A_REPORT, mayHost: true })),
    )
    expect(new Set(lines.map((cells) => cells.length)).size).toBe(1)
    expect(lines).toContainEqual(['number', 'adults', '', '', '', '', '12', '14', ''])
    const asOperator = csvText(reportCsv({ words: ENGLISH, names: NAMES, report: A_REPORT, mayHost: false }))
    expect(asOperator).not.toContain('Thanks to the mill')
  })
})

describe('the page of a report', () => {
  it('says before closing time what is missing, and is a draft after it', () => {
    const early = page(HOST, AN_EARLY_REPORT)
    expect(early.lead).toContain('goes on by itself until 21:30')
    expect(early.lacks[0]).toBe('The night is not over yet.')
    expect(early.closing).toBeNull()
    expect(early.write?.href).toBe('#form')
    expect(page(VISITOR, AN_EARLY_REPORT).write).toBeNull()
    expect(page().lead).toContain('The draft is ready')
    expect(page().closing).not.toBeNull()
  })

  it('puts the host’s numbers beside the reckoned ones', () => {
    const row = page().numbers.rows.find(({ name }) => name === 'Adults who came')
    expect(row?.cells).toEqual(['12', '14'])
    expect(
      page()
        .tables.flatMap(({ foot }) => foot?.cells ?? [])
        .filter((cell) => cell === '72'),
    ).toHaveLength(4)
  })

  it('names people to the host alone', () => {
    const names = (viewer = HOST) => JSON.stringify(page(viewer))
    expect(names()).toContain('Ada')
    expect(names()).toContain('Ines')
    for (const name of ['Ada', 'Ines', 'mill']) expect(names({ ...VISITOR, mayAct: true })).not.toContain(name)
  })

  it('opens to those who act, is written by the host, and closes no night before its time', async () => {
    const { app } = await testApp()
    const url = '/nights/night-1/report'
    expect((await app.inject(asVisitor({ url }))).statusCode).toBe(403)
    expect((await app.inject(asVisitor({ url: '/season' }))).statusCode).toBe(200)
    expect((await app.inject(asHost({ url }))).statusCode).toBe(200)
    expect((await app.inject(asHost({ method: 'POST', url: `${url}/close` }))).statusCode).toBe(409)
    const { paths } = (await app.inject(asHost({ url: '/api/openapi.json' }))).json()
    const schema = paths['/api/nights/{id}/report'].get.responses['200'].content['application/json'].schema
    expect(Object.keys(schema.properties)).toContain('showings')
    await app.close()
  })
})

describe('a season', () => {
  it('has a table beside each picture, with the same numbers in both', () => {
    const { pictures, table } = seasonPage(HOST, { season: A_SEASON, years: [2026], names: NAMES })
    expect(pictures).toHaveLength(3)
    for (const { drawing, table: numbers } of pictures) {
      for (const { name, cells } of numbers.rows) {
        for (const word of name.split(' ')) expect(drawing).toContain(word)
        expect(drawing).toContain(`>${cells.at(-1)}</text>`)
      }
    }
    expect(table?.head.cells.at(-1)).toBe('Operator')
    expect(JSON.stringify(seasonPage(VISITOR, { season: A_SEASON, years: [2026], names: NAMES }))).not.toContain('Ines')
  })

  it('leads on to the nights while none is over', () => {
    const empty = { season: { ...A_SEASON, nights: [] }, years: [], names: NAMES }
    const [host, visitor] = [HOST, VISITOR].map((viewer) => seasonPage(viewer, empty))
    expect(host?.ways).toEqual([{ href: '/nights', text: 'To the nights' }])
    expect(host?.lead).toMatch(/^No night is over yet\./)
    expect(visitor?.lead).toMatch(/^No night is closed yet\./)
  })

  it('draws bars to one scale, in black and patterns alone, with nothing beyond the edge', () => {
    const rows = [
      [120, 40],
      [30, 0],
      [0, 0],
    ].map(([solid = 0, striped = 0], i) => ({
      label: `A long name of the thing that stands in row ${i}`,
      said: String(solid + striped),
      parts: [
        { value: solid, fill: 'solid' as const },
        { value: striped, fill: 'striped' as const },
      ],
    }))
    const { svg, bars, mmPerOne, heightMm } = barChart({ title: 'Bars', rows, legend: [] })
    for (const { parts, said, label, y2 } of bars) {
      for (const { value, x1, x2 } of parts) expect(x2 - x1).toBeCloseTo(value * mmPerOne, 9)
      expect(said.x2).toBeLessThanOrEqual(BAR_CHART_MM + 1e-9)
      expect(Math.max(label.y2, y2)).toBeLessThanOrEqual(heightMm)
    }
    for (const [i, { y1 }] of bars.slice(1).entries()) expect(y1).toBeGreaterThanOrEqual(bars[i]?.y2 ?? 0)
    expect(svg).not.toMatch(/#[0-9a-f]{3,6}|rgb|style=/i)
  })
})
