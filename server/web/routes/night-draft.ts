import { halfHourStarts, isDay } from '../../tours/hours.ts'
import { DEFAULT_SETTINGS, type Night, type NightDraft, type NightSettings } from '../../tours/night.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import { clockSaid } from '../../words/clock-said.ts'
import { type FormValues, filledRows, numberOf, withRows } from './form-values.ts'
import { namedStations, stationValues } from './night-row.ts'

/** Hours offered for a new night; common practice, no source. */
const FIRST_HOURS = { opens: '18:00', closes: '21:00' }
const CLOCK_TIME = /^([01]\d|2[0-3]):[0-5]\d$/
const ANY_DAY = '2026-01-15'

/** What is known of a new night before its form is filled in. */
type NewNight = Readonly<Partial<Record<'siteId' | 'date' | 'opens' | 'closes', string | undefined>>>

/** The values of the form of a new night, with these stations in its row. */
export const newNightValues = (given: NewNight, row: readonly FormValues[] = []): FormValues =>
  withRows(
    {
      ...FIRST_HOURS,
      ...Object.fromEntries(
        Object.entries(given).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
      ),
    },
    { stations: row },
  )

/** The row of these telescopes, nobody at them yet. */
export const rowOfTelescopes = (ids: readonly string[]): readonly FormValues[] =>
  ids.map((telescopeId) => ({ kind: 'telescope', telescopeId }))

/**
 * The start of each half hour of the public hours that a form says, `HH:mm`, over midnight if need be; [] without two
 * clock times. While no day or no site is chosen, a night without a clock change is taken.
 */
export function halfHoursOf(values: FormValues, sites: readonly Site[]): readonly string[] {
  const { opens = '', closes = '', date = '' } = values
  if (!CLOCK_TIME.test(opens) || !CLOCK_TIME.test(closes)) return []
  const site = sites.find(({ id }) => id === values.siteId)
  const isKnown = isDay(date) && site !== undefined
  return halfHourStarts({
    date: isKnown ? date : ANY_DAY,
    opens,
    closes,
    site: { zone: isKnown ? site.zone : 'UTC' },
  })
}

/**
 * The form's values with its clock times as they are read, visitors by the half hours of its own public hours and without blank stations; people typed
 * for a half hour that is now outside stay, so that the host reads that they are.
 */
export function nightRows(asTyped: FormValues, telescopes: readonly Telescope[], sites: readonly Site[]): FormValues {
  const values = withClocks(asTyped)
  const typed = filledRows(values, 'visitors', () => true)
  const inside = halfHoursOf(values, sites)
  const people = (row: FormValues) => ['adults', 'children', 'seated'].some((who) => (row[who] ?? '0') !== '0')
  const outside = typed.filter((row) => !inside.includes(row.startsAt ?? '') && people(row))
  const visitors = inside.map((startsAt) => typed.find((row) => row.startsAt === startsAt) ?? { startsAt })
  const stations = filledRows(values, 'stations', (part, value) => part !== 'kind' || value !== 'telescope')
  return withRows(values, {
    visitors: [...visitors, ...outside],
    stations: namedStations(stations, telescopes),
  })
}

const CLOCKS = ['opens', 'closes', 'settings.schoolClass.startsAt', 'settings.schoolClass.endsAt']

const withClocks = (values: FormValues): FormValues =>
  Object.fromEntries(
    Object.entries(values).map(([name, text]) => [name, CLOCKS.includes(name) ? clockSaid(text) : text]),
  )

/** A night from its form, with `values` as `nightRows` gives them. */
export function nightDraftOf(values: FormValues): NightDraft {
  return {
    title: (values.title ?? '').trim(),
    siteId: values.siteId ?? '',
    date: values.date ?? '',
    opens: values.opens ?? '',
    closes: values.closes ?? '',
    visitors: filledRows(values, 'visitors', () => true).map((row) => ({
      startsAt: row.startsAt ?? '',
      adults: numberOf(row.adults ?? '0'),
      children: numberOf(row.children ?? '0'),
      seated: numberOf(row.seated ?? '0'),
    })),
    stations: filledRows(values, 'stations', () => true).map(stationOf),
    settings: settingsOf(values),
  }
}

const KINDS = ['telescope', 'bare-eye', 'binoculars', 'screen', 'questions'] as const

const stationOf = (row: FormValues): NightDraft['stations'][number] => ({
  name: row.name ?? '',
  kind: KINDS.find((kind) => kind === row.kind) ?? 'telescope',
  telescopeId: row.telescopeId ?? null,
  operator: row.operator ?? '',
  isForChildren: row.isForChildren === 'true',
})

function settingsOf(values: FormValues): NightSettings {
  const years = values['settings.visitorYears']
  const value = (key: keyof typeof DEFAULT_SETTINGS): number => {
    const text = values[`settings.${key}`]
    return text === undefined ? DEFAULT_SETTINGS[key] : numberOf(text)
  }
  return {
    extinctionMag: value('extinctionMag'),
    seeingArcsec: value('seeingArcsec'),
    thinCloud: value('thinCloud'),
    noviceFactor: value('noviceFactor'),
    moonGazerShare: value('moonGazerShare'),
    cycleSec: value('cycleSec'),
    stayMin: value('stayMin'),
    // What is not said is left out: a night that is sent back unchanged stays the night that its programme was built for.
    ...(values['settings.streetLight'] === 'true' && { streetLight: true }),
    ...(years !== undefined && { visitorYears: numberOf(years) }),
    ...classOf(values),
  }
}

const CLASS = 'settings.schoolClass'

/** A class is one once a time of it is given. */
function classOf(values: FormValues): Pick<NightSettings, 'schoolClass'> {
  const [startsAt, endsAt, groups] = [values[`${CLASS}.startsAt`], values[`${CLASS}.endsAt`], values[`${CLASS}.groups`]]
  if (startsAt === undefined && endsAt === undefined) return {}
  const schoolClass = {
    startsAt: startsAt ?? '',
    endsAt: endsAt ?? '',
    groups: groups === undefined ? 1 : numberOf(groups),
  }
  return { schoolClass }
}

/** The values of the form of a kept night. */
export function nightValues(night: Night): FormValues {
  const { title, site, date, opens, closes, visitors, stations, settings } = night
  const visitorRows = visitors.map((row) => textRow(row))
  const { schoolClass, ...plain } = settings
  const classValues = Object.entries(schoolClass ?? {}).map(([key, value]) => [`${CLASS}.${key}`, String(value)])
  const settingValues = Object.entries(plain).map(([key, value]) => [`settings.${key}`, String(value ?? '')])
  const values = {
    title,
    siteId: site.id,
    date,
    opens,
    closes,
    ...Object.fromEntries([...settingValues, ...classValues]),
  }
  return withRows(values, { visitors: visitorRows, stations: stations.map(stationValues) })
}

const textRow = (row: Readonly<Record<string, string | number>>): FormValues =>
  Object.fromEntries(Object.entries(row).map(([key, value]) => [key, String(value)]))
