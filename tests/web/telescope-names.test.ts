import { describe, expect, it } from 'vitest'
import type { Night } from '../../server/tours/night.ts'
import type { Telescope } from '../../server/tours/telescope.ts'
import { telescopeNames } from '../../server/web/pages/telescope-names.ts'
import { namedStations, withWholeKit } from '../../server/web/routes/night-row.ts'
import { A_NIGHT, A_TELESCOPE } from '../support/field-data.ts'
import { HOST, VISITOR } from '../support/page-data.ts'

const [tube] = A_TELESCOPE.tubes
const [station] = A_NIGHT.stations
if (!tube || !station) throw new Error('The telescope of the tests has a tube, its night a station')

const telescope = (id: string, more: Partial<Telescope> = {}): Telescope => ({
  ...A_TELESCOPE,
  id,
  name: '102 mm refractor',
  ...more,
})
const nightOf = (one: Telescope, operator: string, title: string, date = A_NIGHT.date): Night => ({
  ...A_NIGHT,
  id: title,
  title,
  date,
  stations: [{ ...station, telescope: one, operator }],
})
const named = (kit: readonly Telescope[], nights: readonly Night[] = [], viewer = HOST) =>
  kit.map(telescopeNames(viewer, kit, nights))

describe('telescopes in lists', () => {
  const [one, two] = [telescope('1'), telescope('2')]

  it('are called by their names while those differ', () => {
    expect(named([one, telescope('2', { name: 'Old one' })])).toEqual(['102 mm refractor', 'Old one'])
  })

  it('of one name are told apart by focal length, by mount, by year', () => {
    const long = telescope('2', { tubes: [{ ...tube, focalLengthMm: 1000 }], mount: 'equatorial', inKitSince: 2019 })
    expect(named([one, long])).toEqual([
      '102 mm refractor (1200 mm focal length)',
      '102 mm refractor (1000 mm focal length)',
    ])
    expect(named([one, telescope('2', { name: '102 MM Refractor ', mount: 'equatorial' })])).toEqual([
      '102 mm refractor (pushed by hand)',
      '102 MM Refractor  (equatorial mount with a motor)',
    ])
    expect(named([telescope('1', { inKitSince: 2011 }), telescope('2', { inKitSince: 2019 })])).toEqual([
      '102 mm refractor (since 2011)',
      '102 mm refractor (since 2019)',
    ])
  })

  it('alike in all of that are told apart by who had them last, which visitors do not read', () => {
    const nights = [
      nightOf(one, 'Pirkko', 'Long ago', '2020-01-01'),
      nightOf(one, 'Mirela', 'Winter stars'),
      nightOf(two, 'Tamsin', 'Southern winter'),
    ]
    expect(named([one, two], nights)).toEqual(['102 mm refractor (with Mirela)', '102 mm refractor (with Tamsin)'])
    expect(named([one, two], nights, VISITOR)).toEqual([
      '102 mm refractor (Winter stars)',
      '102 mm refractor (Southern winter)',
    ])
    expect(named([one, two], nights.slice(1, 2), VISITOR)).toEqual([
      '102 mm refractor (Winter stars)',
      '102 mm refractor (in no night yet)',
    ])
  })

  it('alike in everything are numbered, as many facts as part some of them before the number', () => {
    expect(named([one, two])).toEqual(['102 mm refractor (no. 1)', '102 mm refractor (no. 2)'])
    expect(named([one, two, telescope('3', { mount: 'equatorial' })])).toEqual([
      '102 mm refractor (pushed by hand, no. 1)',
      '102 mm refractor (pushed by hand, no. 2)',
      '102 mm refractor (equatorial mount with a motor, no. 3)',
    ])
  })
})

describe('stations that are called by their telescopes', () => {
  const kit = [telescope('1'), telescope('2'), telescope('3', { name: 'x'.repeat(60) })]
  const at = (telescopeId: string, name?: string) => ({ kind: 'telescope', telescopeId, ...(name && { name }) })

  it('get a number where a name is taken in the row, and stay within forty letters', () => {
    const row = namedStations([at('1'), at('2'), at('3'), at('3')], kit)
    expect(row.map(({ name }) => name)).toEqual([
      '102 mm refractor 1',
      '102 mm refractor 2',
      `${'x'.repeat(38)} 1`,
      `${'x'.repeat(38)} 2`,
    ])
    expect(namedStations([at('1'), at('2', 'Gate')], kit).map(({ name }) => name)).toEqual(['102 mm refractor', 'Gate'])
  })

  it('leave every typed name as it was typed', () => {
    const row = [at('1', 'Gate'), at('2', '102 mm refractor'), at('1', 'Gate'), at('1')]
    expect(namedStations(row, kit).map(({ name }) => name)).toEqual([
      'Gate',
      '102 mm refractor',
      'Gate',
      '102 mm refractor 2',
    ])
  })

  it('do so when the whole kit is put into the row', () => {
    const values = withWholeKit({ 'stations.0.telescopeId': '1', 'stations.0.name': '102 mm refractor' }, kit)
    const names = [0, 1, 2].map((i) => values[`stations.${i}.name`])
    expect(names).toEqual(['102 mm refractor', '102 mm refractor 2', 'x'.repeat(40)])
  })
})
