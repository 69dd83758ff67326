import type { Clock } from '../clock.ts'
import { invalid } from '../errors.ts'
import { readNightFile, readThingsFile } from '../tours/file-text.ts'
import type { NightFile, ThingsFile } from '../tours/night-file.ts'
import { withIds } from '../tours/night-file-ids.ts'
import { nightFileProblems, thingsFileProblems } from '../tours/night-file-problems.ts'
import { addNight, bringActs } from './carry-in.ts'
import { idsHere, thingIdsHere } from './carry-match.ts'
import { nightInFile, thingsInFile } from './carry-out.ts'
import { CARRIED_PARTS, type CarriedPart, type Part } from './carry-part.ts'
import { groundParts, nightParts, thingParts, wordParts } from './carry-parts.ts'
import type { Stores } from './stores.ts'

/** What a file changed here. */
export interface Brought {
  /** Null where the file is of no night. */
  readonly nightId: string | null
  readonly isNewNight: boolean
  readonly marks: number
  readonly programmes: number
  /** Parts beside marks and programmes that were missing here and are kept now. */
  readonly parts: number
  /** What is told differently here and in the file, each once. */
  readonly differs: readonly CarriedPart[]
}

/** Nights, and a host's own things and words, as files. */
export interface CarryDesk {
  nightFile(nightId: string): NightFile
  thingsFile(): ThingsFile
  /** Brings in all that is missing here, or nothing: an invalid Fault then names every place that is wrong. `take` lets the file hold where it differs. */
  bringNight(text: string, take: boolean): Brought
  bringThings(text: string, take: boolean): Brought
}

interface CarryNeeds {
  readonly stores: Stores
  readonly knows: (key: string) => boolean
  readonly keyOf: (name: string) => string | undefined
  readonly clock: Clock
}

export function carryDesk(needs: CarryNeeds): CarryDesk {
  const { stores, knows, clock } = needs
  return {
    nightFile: (nightId) => nightInFile(stores, nightId, clock.now()),
    thingsFile: () => thingsInFile(stores, clock.now()),
    bringNight(text, take) {
      const read = readNightFile(text)
      const problems = 'problems' in read ? read.problems : nightFileProblems(read.file, knows)
      if ('problems' in read || problems.length > 0) throw invalid(problems)
      return stores.marks.together(() => bringNight(needs, withIds(read.file, idsHere(stores, read.file)), take))
    },
    bringThings(text, take) {
      const read = readThingsFile(text)
      const problems = 'problems' in read ? read.problems : thingsFileProblems(read.file, knows)
      if ('problems' in read || problems.length > 0) throw invalid(problems)
      return stores.marks.together(() => bringThings(needs, read.file, take))
    },
  }
}

function bringNight({ stores, keyOf, clock }: CarryNeeds, file: NightFile, take: boolean): Brought {
  const now = clock.now()
  const ground = { stores, keyOf, now }
  const [tonight, always] = [true, false].map((asked) => file.ownWords.filter(({ isTonight }) => isTonight === asked))
  const around = settle(
    [...groundParts(stores, file), ...thingParts(ground, file.things), ...wordParts(ground, always ?? [])],
    take,
  )
  const isNewNight = addNight(stores, file)
  const itself = settle(
    [...nightParts(stores, file, now), ...wordParts(ground, tonight ?? [], file.night.id)],
    take || isNewNight,
  )
  const told = summed(isNewNight ? [around] : [around, itself])
  return { nightId: file.night.id, isNewNight, ...bringActs(stores, file), ...told }
}

function bringThings({ stores, keyOf, clock }: CarryNeeds, file: ThingsFile, take: boolean): Brought {
  const ground = { stores, keyOf, now: clock.now() }
  const keys = thingIdsHere(stores, file.things)
  const renamed = <Keyed extends { readonly key: string }>(list: readonly Keyed[]): Keyed[] =>
    list.map((it) => ({ ...it, key: keys.get(it.key) ?? it.key }))
  const parts = [...thingParts(ground, renamed(file.things)), ...wordParts(ground, renamed(file.ownWords))]
  return { nightId: null, isNewNight: false, marks: 0, programmes: 0, ...summed([settle(parts, take)]) }
}

type Settled = Pick<Brought, 'parts' | 'differs'>

/** Keeps what is new, and what differs where the file holds. */
function settle(parts: readonly Part[], take: boolean): Settled {
  const differs: CarriedPart[] = []
  let fresh = 0
  for (const part of parts) {
    const stands = part.stands()
    if (stands === 'new') fresh += 1
    if (stands === 'differs') differs.push(part.name)
    if (stands === 'new' || (stands === 'differs' && take)) part.keep()
  }
  return { parts: fresh, differs }
}

const summed = (settled: readonly Settled[]): Settled => {
  const differs = new Set(settled.flatMap((one) => one.differs))
  return {
    parts: settled.reduce((sum, { parts }) => sum + parts, 0),
    differs: CARRIED_PARTS.filter((name) => differs.has(name)),
  }
}
