import type { ShowObject } from '../../../server/tours/target.ts'
import type { StarNames, StarRow } from '../rows.ts'
import type { Comparison, Difference } from './difference.ts'
import type { CheckRow } from './table.ts'

type Named = CheckRow & { readonly hip: number; readonly name: string }

const isNamed = (row: CheckRow): row is Named => row.hip !== null && row.name !== null

/** The names of stars, and those that doubles and single stars of the list bear, beside a table of names by Hipparcos number. */
export function compareNames(
  objects: readonly ShowObject[],
  names: ReadonlyMap<number, StarNames>,
  stars: ReadonlyMap<number, StarRow>,
  rows: readonly CheckRow[],
): Comparison {
  const ours = new Map([...names].filter(([, { name }]) => name !== ''))
  const theirs = new Map(rows.filter(isNamed).map((row) => [row.hip, row]))
  const hips = new Map([...theirs.values()].map(({ hip, name }) => [plain(name), hip]))
  return {
    differences: [
      ...[...ours].flatMap(([hip, star]) =>
        differencesOf(hip, star, stars.get(hip)?.constellation, theirs.get(hip), hips.get(plain(star.name))),
      ),
      ...objects.flatMap((object) => strangeNames(object, hips)),
    ],
    compared: [...ours.keys()].filter((hip) => theirs.has(hip)).length,
    onlyInTable: [...theirs.values()].filter(({ hip }) => !ours.has(hip)).map(({ hip, name }) => `HIP ${hip} ${name}`),
    onlyInList: [...ours].filter(([hip]) => !theirs.has(hip)).map(([hip, { name }]) => `HIP ${hip} ${name}`),
  }
}

/** A name with one sort of apostrophe. */
const plain = (name: string): string => name.replaceAll('’', "'")

function differencesOf(
  hip: number,
  { name, constellation }: StarNames,
  standsIn: string | undefined,
  row: Named | undefined,
  hipThere: number | undefined,
): readonly Difference[] {
  const told: Difference[] = []
  const tell = (what: Difference['what'], says: string) => told.push({ key: `hip${hip}`, name, what, says })
  if (row !== undefined && plain(row.name) !== plain(name)) tell('name', `is ${row.name} in the table`)
  if (hipThere !== undefined && hipThere !== hip) tell('name', `is the name of HIP ${hipThere} in the table`)
  // A designation may name another constellation than the one that the star stands in.
  const either = [constellation, standsIn]
  if (row?.constellation && !either.includes(row.constellation))
    tell('constellation', `stands in ${standsIn ?? constellation}, in the table in ${row.constellation}`)
  return told
}

/** Names of a thing of the list that the table gives to a star which the thing is not. */
function strangeNames(
  { key, name, designations }: ShowObject,
  hips: ReadonlyMap<string, number>,
): readonly Difference[] {
  const own = [key, ...designations].flatMap((each) => /^hip ?(\d+)$/i.exec(each)?.[1] ?? []).map(Number)
  if (own.length === 0) return []
  return [name, ...designations].flatMap((each) => {
    const hip = hips.get(plain(each))
    const says = `bears the name ${each}, which is of HIP ${hip} in the table`
    return hip === undefined || own.includes(hip) ? [] : [{ key, name, what: 'name' as const, says }]
  })
}
