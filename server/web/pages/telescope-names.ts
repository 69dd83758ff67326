import type { Night } from '../../tours/night.ts'
import { heard } from '../../tours/station-name.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import type { Viewer } from './sheet.ts'

/** In whose words, and whether people's names are among them. */
type Reader = Pick<Viewer, 'words' | 'mayHost'>

/**
 * What each telescope of a kit is called where it is listed or chosen, by its id. Those of one name get what tells them
 * apart, as little of it as does: focal length, mount, year, for the host who had each last, on which night that was, else a
 * number.
 */
export function telescopeNames(
  reader: Reader,
  kit: readonly Telescope[],
  nights: readonly Night[],
): (telescope: Pick<Telescope, 'id' | 'name'>) => string {
  const groups = [...new Set(kit.map(nameOf))].map((name) => kit.filter((telescope) => nameOf(telescope) === name))
  const names = new Map(groups.flatMap((group) => namesOf(reader, group, nights)))
  return ({ id, name }) => names.get(id) ?? name
}

const nameOf = ({ name }: Pick<Telescope, 'name'>): string => heard(name)

type Fact = (telescope: Telescope) => string | null

function namesOf(reader: Reader, group: readonly Telescope[], nights: readonly Night[]): [string, string][] {
  const { words } = reader
  const saying = enoughOf(group, factsOf(reader, nights))
  const isEnough = countOf(group, saying) === group.length
  return group.map((telescope, i) => {
    const number = words.say('kit.apart-number', { number: i + 1 })
    const facts = [...textsOf(telescope, saying), ...(isEnough ? [] : [number])]
    return [
      telescope.id,
      facts.length === 0 ? telescope.name : words.say('kit.apart', { name: telescope.name, facts: facts.join(', ') }),
    ]
  })
}

/** The first of the facts that tell a group apart, until each has its own. */
function enoughOf(group: readonly Telescope[], facts: readonly Fact[]): readonly Fact[] {
  const chosen: Fact[] = []
  for (const fact of facts) {
    if (countOf(group, chosen) === group.length) break
    if (countOf(group, [fact]) > 1) chosen.push(fact)
  }
  return chosen
}

const textsOf = (telescope: Telescope, facts: readonly Fact[]): string[] =>
  facts.flatMap((fact) => fact(telescope) ?? [])

/** How many of a group these facts tell apart. */
const countOf = (group: readonly Telescope[], facts: readonly Fact[]): number =>
  new Set(group.map((telescope) => textsOf(telescope, facts).join('\n'))).size

function factsOf({ words, mayHost }: Reader, nights: readonly Night[]): readonly Fact[] {
  const last = (telescope: Telescope) => nightsWith(nights, telescope).toSorted(byDate).at(-1)
  return [
    ({ tubes }) => words.list(tubes.map(({ focalLengthMm }) => words.say('kit.apart-focal', { mm: focalLengthMm }))),
    ({ mount }) => words.say(`kit.apart-${mount}`),
    ({ inKitSince }) => (inKitSince === undefined ? null : words.say('kit.apart-since', { year: String(inKitSince) })),
    ...(mayHost ? [(telescope: Telescope) => operatorText(words, last(telescope), telescope)] : []),
    (telescope) => last(telescope)?.title ?? words.say('kit.apart-new'),
  ]
}

function operatorText(words: Words, night: Night | undefined, { id }: Telescope): string | null {
  const operator = night?.stations.find(({ telescope }) => telescope?.id === id)?.operator ?? ''
  return operator === '' ? null : words.say('kit.apart-operator', { operator })
}

const byDate = (a: Night, b: Night): number => a.date.localeCompare(b.date)

type Row = Pick<Night, 'stations'>

/** What each telescope of a row is called among those of the row: as it is everywhere, where two of them have one name. */
export const rowNames =
  ({ telescopeName }: Pick<Viewer, 'telescopeName'>, { stations }: Row) =>
  (telescope: Pick<Telescope, 'id' | 'name'>): string => {
    const alike = stations.filter((station) => station.telescope && nameOf(station.telescope) === nameOf(telescope))
    return alike.length > 1 ? telescopeName(telescope) : telescope.name
  }

/** A row with its telescopes called so, for papers, what is drawn on them, and tables. */
export function withRowNames<Named extends Row>(viewer: Pick<Viewer, 'telescopeName'>, row: Named): Named {
  const nameIn = rowNames(viewer, row)
  const stations = row.stations.map((station) => ({
    ...station,
    telescope: station.telescope && { ...station.telescope, name: nameIn(station.telescope) },
  }))
  return { ...row, stations }
}

/** The nights that have it in their row. */
export const nightsWith = (nights: readonly Night[], { id }: Telescope): readonly Night[] =>
  nights.filter(({ stations }) => stations.some(({ telescope }) => telescope?.id === id))
