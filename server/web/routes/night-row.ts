import type { Night, Station } from '../../tours/night.ts'
import { stationNameOf, withOwnNames } from '../../tours/station-name.ts'
import type { Telescope } from '../../tours/telescope.ts'
import { MOST_STATIONS } from '../pages/night-form.ts'
import { type FormValues, filledRows, withRows } from './form-values.ts'

/** The values of one station of a kept row. */
export const stationValues = ({ name, kind, telescope, operator, isForChildren }: Station): FormValues => ({
  name,
  kind,
  telescopeId: telescope?.id ?? '',
  operator,
  isForChildren: isForChildren ? 'true' : '',
})

/** The night whose row a new one at a site starts with: the latest there, else the latest anywhere. */
export function nightBefore(nights: readonly Night[], siteId: string | undefined): Night | undefined {
  const latest = nights.toSorted((a, b) => b.date.localeCompare(a.date))
  return latest.find(({ site }) => site.id === siteId) ?? latest[0]
}

/** Its row with whoever stood there, without telescopes that are put away now. */
export const earlierRow = (night: Night, telescopes: readonly Telescope[]): readonly FormValues[] =>
  night.stations
    .filter(({ telescope }) => !telescopes.some(({ id, isPutAway }) => id === telescope?.id && isPutAway === true))
    .map(stationValues)

/** The values of a form with every telescope in use that is not in its row yet, as far as there is room. */
export function withWholeKit(values: FormValues, telescopes: readonly Telescope[]): FormValues {
  const row = filledRows(values, 'stations', () => true)
  const isThere = (id: string): boolean => row.some(({ telescopeId }) => telescopeId === id)
  const others = telescopes
    .filter(({ id, isPutAway }) => isPutAway !== true && !isThere(id))
    .map(({ id }) => ({ kind: 'telescope', telescopeId: id }))
  const stations = [...row, ...others].slice(0, Math.max(row.length, MOST_STATIONS))
  return withRows(values, { stations: namedStations(stations, telescopes) })
}

/** Stations without a name are called by their telescopes, with a number behind it where that is taken; typed names stay as typed. */
export function namedStations(row: readonly FormValues[], telescopes: readonly Telescope[]): readonly FormValues[] {
  const typed = row.flatMap(({ name }) => (name ? [{ name }] : []))
  const plainName = ({ telescopeId }: FormValues): string =>
    stationNameOf(telescopes.find(({ id }) => id === telescopeId)?.name ?? '')
  const called = withOwnNames(
    row.filter(({ name }) => !name).map((station) => ({ name: plainName(station) })),
    typed,
  ).values()
  return row.map((station) => ({ ...station, name: station.name || (called.next().value?.name ?? '') }))
}
