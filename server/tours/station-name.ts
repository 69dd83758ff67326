const LONGEST_NAME = 40

/** What a station is called after its telescope: cut to what fits, and with a number where that is taken in its row. */
export function freeStationName(telescopeName: string, taken: ReadonlySet<string>): string {
  const numbered = Array.from({ length: taken.size + 1 }, (_, i) => {
    const number = i === 0 ? '' : ` ${i + 1}`
    return `${telescopeName.slice(0, LONGEST_NAME - number.length).trim()}${number}`
  })
  return numbered.find((name) => !taken.has(name)) ?? telescopeName.slice(0, LONGEST_NAME)
}
