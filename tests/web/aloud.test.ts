import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { skyEvening } from '../../server/sky/evening.ts'
import { eveningDate, nightHours, noonOf } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { placeOf } from '../../server/tours/site.ts'
import { sunTonight } from '../../server/tours/sun-tonight.ts'
import { type AloudPage, aloudPage } from '../../server/web/pages/aloud.ts'
import { aloudSheet } from '../../server/web/pages/aloud-sheet.ts'
import { A_NIGHT, A_SITE } from '../support/field-data.ts'
import { VISITOR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'
import { asVisitor, type TestApp } from '../support/web.ts'

type Where = readonly [name: string, latitudeDeg: number, longitudeDeg: number, zone: string]

const MUNICH: Where = ['Munich', 48.14, 11.58, 'Europe/Berlin']

function nightAt([name, latitudeDeg, longitudeDeg, zone]: Where, date: string, hours = {}): Night {
  return { ...A_NIGHT, date, ...hours, site: { ...A_SITE, name, latitudeDeg, longitudeDeg, zone, heightM: 10 } }
}

function pageAt(night: Night, now: string): AloudPage {
  const { site } = night
  const evening = skyEvening(noonOf(eveningDate(night), site.zone), placeOf(site))
  const sun = sunTonight(site, evening, nightHours(night).opensAt)
  return aloudPage({ ...VISITOR, now: new Date(now) }, { night, sun, hasTour: false, look: 'day' })
}

function lineOf({ lines }: Pick<AloudPage, 'lines'>, label: string) {
  const found = lines.find((line) => line.label.startsWith(label))
  if (!found) throw new Error(`No line ${label}`)
  return found
}

const allText = ({ lines }: AloudPage): string => lines.flatMap(({ said, notes }) => [said, ...notes]).join(' ')

describe('the lines to read aloud', () => {
  it('say place, date and time in words, each with what to mind', () => {
    const page = pageAt(nightAt(MUNICH, '2026-11-20'), '2026-11-20T17:20:00Z')
    expect(page.early).toBeNull()
    expect(lineOf(page, 'Place').said).toBe('Munich')
    expect(lineOf(page, 'Latitude').said).toBe('48 degrees 8 minutes north')
    expect(lineOf(page, 'Longitude').said).toBe('11 degrees 35 minutes east')
    expect(lineOf(page, 'Height').said).toBe('10 m')
    expect(lineOf(page, 'Date').said).toContain('November')
    expect(lineOf(page, 'Date').notes.slice(0, 2)).toEqual([
      'Day, then month, then year: 20, 11, 2026.',
      'Month, then day, then year: 11, 20, 2026.',
    ])
    expect(lineOf(page, 'Time now')).toMatchObject({ said: '18:20' })
    expect(lineOf(page, 'Time now').notes[0]).toContain('6:20 after noon')
    expect(lineOf(page, 'Offset').said).toBe('plus 1 hour: ahead of UTC')
    expect(page.wrong).toHaveLength(8)
  })

  it('say south and west as words, rounded to the minute', () => {
    const page = pageAt(
      nightAt(['Ushuaia', -54.8, -68.9999, 'America/Argentina/Ushuaia'], '2026-07-10'),
      '2026-07-10T22:00:00Z',
    )
    expect(lineOf(page, 'Latitude').said).toBe('54 degrees 48 minutes south')
    expect(lineOf(page, 'Longitude').said).toBe('69 degrees 0 minutes west')
    expect(lineOf(page, 'Offset').said).toBe('minus 3 hours: behind UTC')
    expect(lineOf(page, 'True').notes.join(' ')).toContain('No bright star marks the pole')
  })

  it('warn of a swap of day and month on the days on which it stays hidden', () => {
    const dateNotes = (date: string) => lineOf(pageAt(nightAt(MUNICH, date), `${date}T18:00:00Z`), 'Date').notes[2]
    expect(dateNotes('2026-11-20')).toContain('No month has the number 20')
    expect(dateNotes('2026-11-04')).toContain('a day in April')
    expect(dateNotes('2026-11-11')).toContain('does no harm')
  })

  it('are those of the night when it is read on another day, and say so', () => {
    const page = pageAt(nightAt(MUNICH, '2026-07-10'), '2026-03-01T09:00:00Z')
    expect(page.early).toContain('10 July')
    expect(lineOf(page, 'Date').said).toContain('10 July')
    expect(lineOf(page, 'Offset').said).toBe('plus 2 hours: ahead of UTC')
    expect(lineOf(page, 'Time now').said).toBe('10:00')
  })

  it('have the date of the new day after midnight', () => {
    const night = nightAt(MUNICH, '2026-11-20', { opens: '22:00', closes: '02:00' })
    expect(lineOf(pageAt(night, '2026-11-20T23:30:00Z'), 'Date').said).toContain('21 November')
    expect(lineOf(pageAt(night, '2026-11-20T23:30:00Z'), 'Time now').notes[0]).toContain('12:30 before noon')
  })
})

describe('on nights with a change of the clocks', () => {
  it('the lines say so before it and hold after it', () => {
    const spring = nightAt(MUNICH, '2026-03-28')
    const before = lineOf(pageAt(spring, '2026-03-28T19:00:00Z'), 'Clock change')
    expect(before.said).toMatch(/^off/)
    expect(before.notes[0]).toMatch(/29 March 2026, the clocks go forward by 1 hour: 02:00 becomes 03:00/)
    const after = pageAt(spring, '2026-03-29T02:30:00Z')
    expect(lineOf(after, 'Clock change').said).toMatch(/^on/)
    expect(lineOf(after, 'Time now').said).toBe('04:30')
    expect(lineOf(after, 'Offset').said).toBe('plus 2 hours: ahead of UTC')
    expect(lineOf(after, 'Offset').notes[1]).toContain('plus 1 hour')
  })

  it('the hour that comes twice in autumn is told apart by its offset', () => {
    const autumn = nightAt(MUNICH, '2026-10-24')
    const [first, second] = ['2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z'].map((now) => pageAt(autumn, now))
    for (const page of [first, second]) expect(page && lineOf(page, 'Time now').said).toBe('02:30')
    expect(first && lineOf(first, 'Offset').said).toBe('plus 2 hours: ahead of UTC')
    expect(second && lineOf(second, 'Offset').said).toBe('plus 1 hour: ahead of UTC')
    expect(first && lineOf(first, 'Clock change').notes[0]).toContain('go back by 1 hour: 03:00 becomes 02:00')
  })

  it('half an hour is half an hour', () => {
    const page = pageAt(
      nightAt(['Lord Howe', -31.55, 159.08, 'Australia/Lord_Howe'], '2026-04-04'),
      '2026-04-04T09:00:00Z',
    )
    expect(lineOf(page, 'Offset').said).toBe('plus 11 hours: ahead of UTC')
    expect(lineOf(page, 'Offset').notes[1]).toContain('plus 10 hours 30 minutes')
    expect(lineOf(page, 'Clock change').notes[0]).toContain('go back by 30 minutes: 02:00 becomes 01:30')
  })
})

describe('at the ends of the Earth', () => {
  it('odd offsets are said whole, and the date is the one of the place', () => {
    const kathmandu = pageAt(nightAt(['Kathmandu', 27.7, 85.3, 'Asia/Kathmandu'], '2026-11-20'), '2026-11-20T13:00:00Z')
    expect(lineOf(kathmandu, 'Offset').said).toBe('plus 5 hours 45 minutes: ahead of UTC')
    expect(lineOf(kathmandu, 'Clock change').said).toBe('off: clocks are not changed here')
    const now = '2026-11-20T07:00:00Z'
    const kiritimati = pageAt(nightAt(['London village', 1.98, -157.47, 'Pacific/Kiritimati'], '2026-11-20'), now)
    expect(lineOf(kiritimati, 'Offset').said).toBe('plus 14 hours: ahead of UTC')
    expect(lineOf(kiritimati, 'Longitude').said).toContain('west')
    expect(lineOf(kiritimati, 'Date').said).toContain('20 November')
    const pagoPago = pageAt(nightAt(['Pago Pago', -14.28, -170.7, 'Pacific/Pago_Pago'], '2026-11-19'), now)
    expect(lineOf(pagoPago, 'Date').said).toContain('19 November')
    expect(lineOf(pagoPago, 'Offset').said).toBe('minus 11 hours: behind UTC')
    expect(lineOf(pagoPago, 'Time now').said).toBe('20:00')
  })

  it('the Sun that does not set, and the one that does not rise, are spoken of', () => {
    const longyearbyen: Where = ['Longyearbyen', 78.22, 15.65, 'Arctic/Longyearbyen']
    const summer = pageAt(nightAt(longyearbyen, '2026-06-20'), '2026-06-20T18:00:00Z')
    expect(summer.sun).toContain('does not set tonight')
    const winter = pageAt(nightAt(longyearbyen, '2026-12-20'), '2026-12-20T18:00:00Z')
    expect(winter.sun).toContain('does not rise')
    expect(lineOf(winter, 'True').notes.join(' ')).toContain('degrees to the left')
  })

  it('no compass is praised near the magnetic pole, and a model is not stretched in silence', () => {
    const pole: Where = ['Sea ice', 85.8, 139, 'UTC']
    const near = lineOf(pageAt(nightAt(pole, '2026-12-20'), '2026-12-20T18:00:00Z'), 'True')
    expect(near.said).toContain('no compass here')
    expect(near.notes.join(' ')).not.toContain('go ')
    const late = pageAt(nightAt(MUNICH, '2031-11-20'), '2031-11-20T18:00:00Z')
    expect(lineOf(late, 'True').notes.join(' ')).toContain('nearest day')
  })

  it('nothing is left blank or unfilled anywhere', () => {
    const zones: readonly Where[] = [
      MUNICH,
      ['Null', 0, 0, 'Africa/Abidjan'],
      ['Chatham', -43.95, -176.55, 'Pacific/Chatham'],
      ['South Pole', -90, 0, 'Antarctica/McMurdo'],
    ]
    for (const where of zones) {
      for (const date of ['2026-01-12', '2026-04-04', '2026-09-26', '2026-12-31']) {
        const page = pageAt(nightAt(where, date), `${date}T12:00:00Z`)
        expect(allText(page), where[0]).not.toMatch(/[{}]|undefined|NaN/)
        for (const { said } of page.lines) expect(said).not.toBe('')
      }
    }
  })
})

describe('the sheet', () => {
  it('leaves a blank for the time and holds for the opening of the night', () => {
    const sheet = aloudSheet(VISITOR, A_FULL_PRINT)
    expect(sheet.lines.filter(({ isBlank }) => isBlank).map(({ label }) => label)).toEqual(['Time now'])
    expect(lineOf(sheet, 'Date').said).toContain('20 November')
  })
})

describe('as it is served', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await pagedApp()
  })
  afterAll(() => service.app.close())

  it('anyone reads it, by day and by the lamp, and it leads to the finder of faults', async () => {
    for (const look of ['', '?look=lamp']) {
      const answer = await service.app.inject(asVisitor({ url: `/nights/night-1/aloud${look}` }))
      expect(answer.statusCode).toBe(200)
      expect(answer.body).toContain('48 degrees 12 minutes north')
      expect(answer.body).toContain('/nights/night-1/faults')
    }
    expect((await service.app.inject(asVisitor({ url: '/nights/none/aloud' }))).statusCode).toBe(404)
  })
})
