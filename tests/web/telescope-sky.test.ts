import { describe, expect, it } from 'vitest'
import type { Night } from '../../server/tours/night.ts'
import type { Site } from '../../server/tours/site.ts'
import { telescopePage } from '../../server/web/pages/telescope.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { HOST } from '../support/page-data.ts'

const DARK: Site = { ...A_SITE, id: 'dark', name: 'Dark hill', skyMag: 21.5 }
const TOWN: Site = { ...A_SITE, id: 'town', name: 'Town square', skyMag: 18 }
const SITES = [TOWN, DARK]
const [station] = A_NIGHT.stations
if (!station) throw new Error('The night of the tests has a station')
const OTHER = { ...A_TELESCOPE, id: 'other' }

const nightOn = (date: string, site: Site, more: Partial<Night> = {}): Night => ({
  ...A_NIGHT,
  id: `night-${date}`,
  date,
  site,
  ...more,
})
const page = (nights: readonly Night[], sky?: string, sites: readonly Site[] = SITES) =>
  telescopePage(HOST, { telescope: A_TELESCOPE, nights, sites, sky }).shows
const chosen = (shows: ReturnType<typeof page>) => shows.choose?.field.options.find(({ isChosen }) => isChosen)?.text

describe('what a telescope shows', () => {
  const soon = nightOn('2026-12-17', TOWN)
  const later = nightOn('2027-07-10', DARK)

  it('is reckoned for the next night on which it stands in the row, and says where and when that is', () => {
    const shows = page([later, soon, nightOn('2026-11-25', DARK, { stations: [{ ...station, telescope: OTHER }] })])
    expect(shows.sky).toContain('For Thursday 17 December 2026 at Town square')
    expect(chosen(shows)).toBe('Thursday 17 December 2026, Town square')
  })

  it('passes over nights that are past, off or closed', () => {
    const past = nightOn('2026-01-10', TOWN)
    const [off, closed] = [
      nightOn('2026-11-28', TOWN, { state: 'off' }),
      nightOn('2026-11-29', TOWN, { state: 'closed' }),
    ]
    expect(chosen(page([past, off, closed, later]))).toBe('Saturday 10 July 2027, Dark hill')
  })

  it('is reckoned for the next night of all where it stands in none, then for the site of the last', () => {
    const ofOthers = nightOn('2026-12-01', TOWN, { stations: [{ ...station, telescope: OTHER }] })
    expect(chosen(page([ofOthers]))).toBe('Tuesday 1 December 2026, Town square')
    expect(chosen(page([nightOn('2026-01-10', TOWN)]))).toBe('Town square, on any night')
    expect(chosen(page([]))).toBe('Dark hill, on any night')
    expect(chosen(page([], undefined, []))).toBe('A sky of class 6, about 19.2')
  })

  it('can be asked for another night, a site by itself or a class, and nonsense is the usual choice', () => {
    expect(page([soon, later], later.id).sky).toContain('For Saturday 10 July 2027 at Dark hill')
    expect(page([soon], 'dark').sky).toMatch(/^For Dark hill on any night/)
    expect(page([soon], '3').sky).toMatch(/^For a sky of class 3/)
    expect(chosen(page([soon], 'nowhere'))).toBe('Thursday 17 December 2026, Town square')
  })

  it('shows fainter stars under the darker sky, and fewer in the haze of a night', () => {
    const starMag = (shows: ReturnType<typeof page>) => Number(shows.tubes[0]?.rows[0]?.cells[3]?.text)
    expect(starMag(page([], 'dark'))).toBeGreaterThan(starMag(page([], 'town')) + 1)
    const hazy = nightOn('2026-12-20', DARK, { settings: { ...A_NIGHT.settings, extinctionMag: 0.8 } })
    expect(starMag(page([hazy]))).toBeLessThan(starMag(page([nightOn('2026-12-20', DARK)])))
  })
})
