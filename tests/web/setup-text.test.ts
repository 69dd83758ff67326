import { describe, expect, it } from 'vitest'
import type { Night, Station } from '../../server/tours/night.ts'
import { fieldPage } from '../../server/web/pages/field.ts'
import { setupText } from '../../server/web/pages/stop-line.ts'
import { A_NIGHT, A_TELESCOPE, A_TOUR } from '../support/field-data.ts'
import { FIELD } from '../support/field-subject.ts'
import { ENGLISH, HOST } from '../support/page-data.ts'

const factors = [{ id: 'b', name: '2x Barlow', factor: 2 }]
const telescope = { ...A_TELESCOPE, factors }
const stations = A_NIGHT.stations.map((station): Station => ({ ...station, telescope }))
const night: Night = { ...A_NIGHT, stations }
const [station] = stations
if (!station) throw new Error('The night of the tests has a station')
const setup = { tubeId: 'tube-1', eyepieceId: 'eyepiece-1*b', powerX: 96, trueFieldDeg: 0.54 }

describe('what to put in', () => {
  it('names the Barlow that the eyepiece stands behind', () => {
    expect(setupText(ENGLISH, station, setup)).toEqual(['Eyepiece wide behind the 2x Barlow, 96 times'])
    expect(setupText(ENGLISH, station, { ...setup, eyepieceId: 'eyepiece-1', powerX: 48 })).toEqual([
      'Eyepiece wide, 48 times',
    ])
  })

  it('says the power alone of a part that the telescope has no more', () => {
    const gone = ['96 times, with a tube or eyepiece that is no longer listed']
    expect(setupText(ENGLISH, A_NIGHT.stations[0], setup)).toEqual(gone)
    expect(setupText(ENGLISH, station, { ...setup, tubeId: 'sold' })).toEqual(gone)
    expect(setupText(ENGLISH, { ...station, telescope: null }, setup)).toEqual([])
  })

  it('stands so on the page of the field', () => {
    const stops = A_TOUR.stops.map((stop) => ({ ...stop, setups: [setup] }))
    const subject = { ...FIELD, night, tour: { ...A_TOUR, stops } }
    expect(JSON.stringify(fieldPage(HOST, subject, station))).toContain('wide behind the 2x Barlow')
  })
})
