import { describe, expect, it } from 'vitest'
import { skyMagOfClass } from '../../server/sight/site-light.ts'
import type { Night } from '../../server/tours/night.ts'
import { ASSUMED_SKY_CLASS } from '../../server/tours/site.ts'
import { startHours } from '../../server/tours/start-hours.ts'
import { usualVisitors } from '../../server/tours/visitors.ts'
import { ASSUMED_NOTE } from '../../server/web/pages/kit-note.ts'
import { startMadePage } from '../../server/web/pages/start-made.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { HOST, TOUR } from '../support/page-data.ts'

const [station] = A_NIGHT.stations
if (!station) throw new Error('The night of the tests has a station')
const SITE = { ...A_SITE, horizon: [], glow: [], skyMag: skyMagOfClass(ASSUMED_SKY_CLASS) }
const { opens, closes } = startHours(SITE, A_NIGHT.date)
const hours = { date: A_NIGHT.date, opens, closes, site: SITE }
const MADE: Night = {
  ...A_NIGHT,
  ...hours,
  visitors: usualVisitors(hours, 1),
  stations: [{ ...station, operator: '', telescope: { ...A_TELESCOPE, note: ASSUMED_NOTE } }],
}

const pageOf = (night: Night, isTown = true) => startMadePage(HOST, { night, tour: TOUR, isTown, isStale: false })
/** Every line under its heading, by what it is about. */
const linesOf = (night: Night, isTown = true) =>
  Object.fromEntries(
    pageOf(night, isTown).parts.map(({ label, lines }) => [
      label,
      Object.fromEntries(lines.map(({ what, text }) => [what, text])),
    ]),
  )

describe('what is said of an evening made of three lines', () => {
  it('counts everything as assumed that nobody has said or changed', () => {
    const { 'What was assumed': assumed, ...others } = linesOf(MADE)
    expect(others).toEqual({})
    expect(Object.keys(assumed ?? {})).toEqual([
      'The place',
      'How dark it is',
      'Trees and roofs',
      'Hours',
      'Visitors',
      'Operators',
      'By the oak',
    ])
    expect(assumed?.Operators).toBe('Nobody is named yet. The sheets have room for a name.')
    expect(assumed?.Visitors).toBe('About twenty at each telescope at a time, more children in the first half.')
  })

  it('says of a night as the host has it that it is so, and assumes nothing', () => {
    const { 'What was there already': taken, ...others } = linesOf(A_NIGHT, false)
    expect(others).toEqual({})
    expect(taken).toMatchObject({
      Hours: 'From 18:30 to 21:30, as the night says.',
      Visitors: 'At most 35 at a time, as the night says.',
      Operators: 'Named: Ines.',
      'By the oak': 'Old eight inch, taken from your kit as it is.',
    })
    expect(taken?.['The place']).toMatch(/^Your site Sheep meadow: /)
    expect([pageOf(MADE, true), pageOf(A_NIGHT, false)].map(({ next }) => next.text.split(/[:,]/)[0])).toEqual([
      'Read below what was assumed',
      'Print',
    ])
  })

  it('names those who are named and the stations where nobody is', () => {
    const row = [station, { ...station, id: 'station-2', name: 'By the gate', operator: '' }]
    expect(linesOf({ ...MADE, stations: row })['What was assumed']?.Operators).toBe(
      'Named: Ines. Nobody yet at: By the gate. The sheets have room for a name.',
    )
  })

  it('says that nobody has counted where there is no table of people', () => {
    expect(linesOf({ ...MADE, visitors: [] })['What was assumed']?.Visitors).toContain('Nobody has said how many')
  })

  it('leads to the papers, or to the programme where there is nothing to print', () => {
    expect(pageOf(MADE).next.href).toBe('/nights/night-1/print/tonight')
    const none = { ...TOUR, stops: [] }
    expect(startMadePage(HOST, { night: MADE, tour: none, isTown: true, isStale: false }).next.href).toBe(
      '/nights/night-1/programme',
    )
    const unbuilt = startMadePage(HOST, { night: MADE, tour: undefined, isTown: true, isStale: false })
    expect(unbuilt.next.href).toBe('/nights/night-1/programme')
    expect(unbuilt.lead).toContain('The programme is not built yet.')
  })

  it('builds again first what was corrected', () => {
    const { next } = startMadePage(HOST, { night: MADE, tour: TOUR, isTown: true, isStale: true })
    expect(next).toMatchObject({ href: '/nights/night-1/programme', button: 'Build it again', isPost: true })
  })

  it('counts each thing once, however often it is shown', () => {
    const twice = { ...TOUR, stops: [...TOUR.stops, ...TOUR.stops] }
    const leadOf = (tour: typeof TOUR) => startMadePage(HOST, { night: MADE, tour, isTown: true, isStale: false }).lead
    expect(leadOf(twice)).toBe(leadOf(TOUR))
  })
})
