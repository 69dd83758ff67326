import { describe, expect, it } from 'vitest'
import { setUpSheet } from '../../server/web/pages/set-up-sheet.ts'
import { A_LIGHT_SET_UP, A_PAIR, A_SET_UP } from '../support/alignment-data.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

describe('the set-up sheet', () => {
  it('begins with the Sun and goes through the evening by the clocks of the site', () => {
    const { sun, steps } = setUpSheet(HOST, A_FULL_PRINT)
    expect(sun).toMatch(/^The Sun first: until it has set/)
    expect(steps[0]).toEqual({ time: '15:30', text: 'Arrive. Walk the ground: holes, lamps, a way for chairs.' })
    expect(steps.map(({ time }) => time)).toEqual(steps.map(({ time }) => time).toSorted())
    expect(steps.find(({ text }) => text.startsWith('The Sun has set'))?.time).toBe('16:32')
  })

  it('names two pairs to align on at that time, and the proof of the first', () => {
    const third = { ...A_SET_UP, pairs: [A_PAIR, { ...A_PAIR, proof: null }, A_PAIR] }
    const text = 'Vega (west-north-west, 4 fists up) and Capella (north-east, 3 fists up)'
    expect(setUpSheet(HOST, { ...A_FULL_PRINT, setUp: third }).align).toBe(
      `${text}, or ${text}. Then as proof: Moon (south, 3½ fists up).`,
    )
    const alone = { ...A_SET_UP, pairs: [{ ...A_PAIR, proof: null }] }
    expect(setUpSheet(HOST, { ...A_FULL_PRINT, setUp: alone }).align).toBe(`${text}.`)
    expect(setUpSheet(HOST, AN_EMPTY_PRINT).align).toBe('')
  })

  it('lays out the eyepieces in the order of their use, each once', () => {
    const [stop] = A_FULL_PRINT.tour.stops
    const tour = { ...A_FULL_PRINT.tour, stops: stop ? [stop, { ...stop, aim: 'close' as const }] : [] }
    expect(setUpSheet(HOST, { ...A_FULL_PRINT, tour }).glass).toEqual([
      { station: 'By the oak', text: 'Eyepiece wide, 48 times' },
    ])
  })

  it('gives the eyepieces of a long row a page of their own', () => {
    expect(setUpSheet(HOST, A_FULL_PRINT).isGlassApart).toBe(false)
    const [station] = A_FULL_PRINT.night.stations
    const stations = Array.from({ length: 12 }, (_, k) => ({
      ...station,
      id: `s-${k}`,
    })) as typeof A_FULL_PRINT.night.stations
    expect(setUpSheet(HOST, { ...A_FULL_PRINT, night: { ...A_FULL_PRINT.night, stations } }).isGlassApart).toBe(true)
  })

  it('is written smaller where its sentences are too long for a page', () => {
    expect(setUpSheet(HOST, A_FULL_PRINT).isDense).toBe(false)
    const [station] = A_FULL_PRINT.night.stations
    const name = 'The telescope that stands where the oak has room for it and nobody walks. '.repeat(4)
    const stations = Array.from({ length: 4 }, (_, k) => ({ ...station, id: `s-${k}`, name }))
    const night = { ...A_FULL_PRINT.night, stations } as typeof A_FULL_PRINT.night
    expect(setUpSheet(HOST, { ...A_FULL_PRINT, night }).isDense).toBe(true)
  })

  it('says so where nothing is planned or no telescope stands', () => {
    const idle = { ...A_FULL_PRINT, tour: { ...A_FULL_PRINT.tour, stops: [] } }
    expect(setUpSheet(HOST, idle).glass[0]?.text).toBe('nothing planned: a low power first')
    expect(setUpSheet(HOST, AN_EMPTY_PRINT)).toMatchObject({ glass: [], glassNone: 'No telescope stands in the row.' })
  })

  it('never lets a tube near a Sun that does not set', () => {
    const sheet = setUpSheet(HOST, { ...A_FULL_PRINT, setUp: A_LIGHT_SET_UP })
    expect(sheet.sun).toContain('no tube ever points near it')
    expect(sheet.align).toMatch(/^The Sun does not set tonight, so no star comes out/)
    expect(sheet.steps.some(({ text }) => text.includes('caps come off'))).toBe(false)
  })

  it('names heavy gear, cables, lasers, children and cold', () => {
    const names = setUpSheet(HOST, A_FULL_PRINT).safety.map(({ name }) => name)
    expect(names).toEqual(['Heavy gear.', 'Cables and legs.', 'Lasers.', 'Children.', 'Cold.'])
  })
})
