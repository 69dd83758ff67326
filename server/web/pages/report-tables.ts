import { sumOf } from '../../tours/report-shares.ts'
import { clockText, howText, MISSING, type ReportGround, reportNumbers, stationText } from './report-words.ts'
import { rowOf, type Table } from './table.ts'

/** Numbers as reckoned and, beside them, as the host says them. */
export function numbersTable(ground: ReportGround): Table {
  const { words, report } = ground
  const text = (count: number | null): string => (count === null ? MISSING : words.number(count))
  const { peak } = report.facts.people
  const at = peak === null ? '' : clockText(ground, peak.at)
  return {
    caption: words.say('report.numbers'),
    head: rowOf(['what', 'reckoned', 'host'].map((key) => words.say(`report.head-${key}`))),
    rows: reportNumbers(report).map(({ key, reckoned, host }) => ({
      name:
        key === 'peak' && peak !== null
          ? words.say('report.number-peak-at', { time: at })
          : words.say(`report.number-${key}`),
      cells: [text(reckoned), text(host)],
    })),
    foot: null,
  }
}

/** What was shown, station after station, with the looks that add up. */
export function showingsTable(ground: ReportGround): Table {
  const { words, names, report } = ground
  const { showings, looks } = report.facts
  return {
    caption: words.say('report.showings'),
    head: rowOf(['target', 'station', 'from', 'to', 'looks', 'how'].map((key) => words.say(`report.head-${key}`))),
    rows: showings.map((showing) => ({
      name: names.nameOf(showing.targetKey),
      cells: [
        stationText(ground, showing.stationId),
        clockText(ground, showing.fromAt),
        clockText(ground, showing.toAt),
        words.number(showing.looks),
        howText(ground, showing),
      ],
    })),
    foot: { name: words.say('report.total'), cells: ['', '', '', words.number(looks), ''] },
  }
}

/** Looks by target with what newcomers said of it; a target that was only talked about has no looks. */
export function targetsTable({ words, names, report }: ReportGround): Table {
  const { looksByTarget, seen, looks } = report.facts
  const keys = [...new Set([...looksByTarget, ...seen].map(({ targetKey }) => targetKey))]
  const number = (count: number): string => words.number(count)
  const rows = keys.map((key) => {
    const said = seen.find(({ targetKey }) => targetKey === key) ?? { they: 0, half: 0, not: 0 }
    const shown = looksByTarget.find(({ targetKey }) => targetKey === key)?.looks ?? 0
    return { name: names.nameOf(key), cells: [shown, said.they, said.half, said.not].map(number) }
  })
  const sums = [looks, ...(['they', 'half', 'not'] as const).map((said) => sumOf(seen.map((one) => one[said])))]
  return {
    caption: words.say('report.targets'),
    head: rowOf(['target', 'looks', 'they', 'half', 'not'].map((key) => words.say(`report.head-${key}`))),
    rows,
    foot: { name: words.say('report.total'), cells: sums.map(number) },
  }
}

/** Looks by station, with its telescope and, for the host, who stood there. */
export function stationsTable(ground: ReportGround): Table {
  const { words, report, mayHost } = ground
  const { looksByStation, looks } = report.facts
  const isThere = (id: string): boolean =>
    report.night.stations.some((station) => station.id === id) ||
    looksByStation.some(({ stationId }) => stationId === id)
  const stations = report.stations.filter(({ id }) => isThere(id))
  return {
    caption: words.say('report.stations'),
    head: rowOf(
      ['station', 'telescope', ...(mayHost ? ['operator'] : []), 'looks'].map((key) => words.say(`report.head-${key}`)),
    ),
    rows: stations.map(({ id, telescope, kind, operator }) => ({
      name: stationText(ground, id),
      cells: [
        telescope?.name ?? words.say(`station.${kind}`),
        ...(mayHost ? [operator || MISSING] : []),
        words.number(looksByStation.find(({ stationId }) => stationId === id)?.looks ?? 0),
      ],
    })),
    foot: { name: words.say('report.total'), cells: ['', ...(mayHost ? [''] : []), words.number(looks)] },
  }
}

/** Half hours with the people there, the looks, and the wait at each telescope then. */
export function halfHoursTable(ground: ReportGround): Table {
  const { words, report } = ground
  const { halfHours, waits, looks } = report.facts
  const stations = report.stations.filter(({ id }) =>
    waits.some((wait) => wait.stations.some(({ stationId }) => stationId === id)),
  )
  const waitText = (at: Date, id: string): string => {
    const wait = waits
      .find((one) => one.at.getTime() === at.getTime())
      ?.stations.find(({ stationId }) => stationId === id)
    return wait === undefined
      ? MISSING
      : words.say('report.minutes', { minutes: words.number(Math.round(wait.waitMin)) })
  }
  return {
    caption: words.say('report.half-hours'),
    head: rowOf([
      ...['time', 'people', 'looks'].map((key) => words.say(`report.head-${key}`)),
      ...stations.map(({ id }) => words.say('report.head-wait', { station: stationText(ground, id) })),
    ]),
    rows: halfHours.map(({ at, adults, children, looks: count }) => ({
      name: clockText(ground, at),
      cells: [
        at <= report.facts.at ? words.number(adults + children) : MISSING,
        words.number(count),
        ...stations.map(({ id }) => waitText(at, id)),
      ],
    })),
    foot: { name: words.say('report.total'), cells: ['', words.number(looks), ...stations.map(() => '')] },
  }
}
