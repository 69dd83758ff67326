const LONGEST_NAME = 40

interface Named {
  readonly name: string
}

/** A name as a reader or a listener knows it again: names of one hearing are taken for the same. */
export const heard = (name: string): string => name.trim().toLowerCase()

/** The plain name of a station after its telescope: as much of it as fits. */
export const stationNameOf = (telescopeName: string): string => telescopeName.slice(0, LONGEST_NAME).trim()

/** Stations, each under a name of its own: where several of the row, or of `others` beside it, have one name, each gets a number. */
export function withOwnNames<Station extends Named>(
  row: readonly Station[],
  others: readonly Named[] = [],
): readonly Station[] {
  const names = [...others, ...row].map(({ name }) => heard(name))
  const taken = new Set(names)
  return row.map((station) => {
    const plain = heard(station.name)
    if (plain === '' || names.filter((name) => name === plain).length === 1) return station
    const isFirstFree = !others.some(({ name }) => heard(name) === plain)
    const name = numbered(station.name, taken, isFirstFree ? 1 : 2)
    taken.add(heard(name))
    return { ...station, name }
  })
}

/** The name with the first number from `first` on that is free. */
function numbered(name: string, taken: ReadonlySet<string>, first: number): string {
  const end = ` ${first}`
  const candidate = `${name.slice(0, LONGEST_NAME - end.length).trim()}${end}`
  return taken.has(heard(candidate)) ? numbered(name, taken, first + 1) : candidate
}
