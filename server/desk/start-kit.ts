import { invalid } from '../errors.ts'
import type { SaidTelescope } from '../tours/kit-said.ts'
import { isSaid, usualTelescope } from '../tours/kit-usual.ts'
import type { Night, Station } from '../tours/night.ts'
import { telescopeProblems } from '../tours/problems.ts'
import { stationNameOf, withOwnNames } from '../tours/station-name.ts'
import type { Telescope } from '../tours/telescope.ts'
import { newId } from './ids.ts'
import { newTelescope } from './telescopes.ts'

/** The telescopes of an evening as they were said, what each kind is called, and the note that marks what is assumed. */
export interface KitAsked {
  readonly date: string
  readonly kit: readonly { readonly said: SaidTelescope; readonly name: string }[]
  readonly note: string
}

/** The row of the evening: of the kit what fits and stands in no other row of that date, and new telescopes for the rest. */
export function kitFrom(
  { date, kit, note }: KitAsked,
  all: readonly Telescope[],
  nights: readonly Night[],
): { readonly row: readonly Station[]; readonly fresh: readonly Telescope[] } {
  const that = nights.filter((night) => night.date === date && night.state !== 'off')
  const busy = new Set(that.flatMap(({ stations }) => stations.map(({ telescope }) => telescope?.id)))
  const free = new Set(all.filter(({ id, isPutAway }) => !isPutAway && !busy.has(id)))
  const names = namesFor(kit, all)
  const fresh: Telescope[] = []
  const row = kit.map(({ said }, i): Telescope => {
    const found = [...free].find((telescope) => isSaid(telescope, said))
    if (found) {
      free.delete(found)
      return found
    }
    const draft = usualTelescope(said, names[i] ?? '', note)
    const problems = telescopeProblems(draft)
    if (problems.length > 0) throw invalid(problems.map((problem) => ({ ...problem, field: 'kit' })))
    const made = newTelescope(draft)
    fresh.push(made)
    return made
  })
  return { row: withOwnNames(row.map(stationOf)), fresh }
}

const stationOf = (telescope: Telescope): Station => ({
  id: newId(),
  name: stationNameOf(telescope.name),
  kind: 'telescope',
  telescope,
  operator: '',
  isForChildren: false,
})

/** What new telescopes are called: numbered where one of that name is there already, or comes twice. */
function namesFor(kit: KitAsked['kit'], all: readonly Telescope[]): readonly string[] {
  const taken = new Set(all.map(({ name }) => name))
  return kit.map(({ name }) => {
    const isAlone = kit.filter((other) => other.name === name).length === 1 && !taken.has(name)
    const numbered = Array.from({ length: taken.size + 1 }, (_, i) => `${name} ${i + 1}`)
    const free = isAlone ? name : (numbered.find((candidate) => !taken.has(candidate)) ?? name)
    taken.add(free)
    return free
  })
}
