import type { NightFile } from '../tours/night-file.ts'
import { programmeFromFile } from '../tours/night-file-programme.ts'
import type { Brought } from './carry.ts'
import { stationsFrom } from './carry-parts.ts'
import type { Stores } from './stores.ts'

/** Keeps a night that is not here with its stations, or the stations that a night here lacks; true for a new night. */
export function addNight(stores: Stores, { night, site, stations }: NightFile): boolean {
  const all = stationsFrom(stores, stations)
  const here = stores.nights.find(night.id)
  const place = stores.sites.find(site.id)
  if (!here && place) {
    stores.nights.add({ ...night, site: place, stations: all })
    const inRow = new Set(stations.flatMap(({ id, isInRow }) => (isInRow ? [id] : [])))
    stores.nights.change({ ...night, site: place, stations: all.filter(({ id }) => inRow.has(id)) })
    return true
  }
  const known = new Set(stores.nights.everyStationId(night.id))
  const missing = all.filter(({ id }) => !known.has(id))
  if (here && missing.length > 0) {
    // A station joins a night by standing in its row for a moment.
    stores.nights.change({ ...here, stations: [...here.stations, ...missing] })
    stores.nights.change(here)
  }
  return false
}

/** Adds the marks and programmes that are missing. */
export function bringActs(
  { marks, tours }: Stores,
  { night, ...file }: NightFile,
): Pick<Brought, 'marks' | 'programmes'> {
  const inOrder = [...file.marks].sort((a, b) => a.seq - b.seq)
  const missing = inOrder.filter(({ key }) => marks.nightOf(key) === undefined)
  for (const { seq: _seq, receivedAt, happenedAt, ...mark } of missing) {
    const times = { receivedAt: new Date(receivedAt), happenedAt: new Date(happenedAt) }
    marks.keep({ ...mark, ...times, nightId: night.id })
  }
  const seqHere = (seq: number): number => {
    const last = inOrder.findLast((mark) => mark.seq <= seq)
    return (last && marks.find(last.key)?.seq) ?? 0
  }
  const lacking = file.programmes.filter(({ id }) => tours.find(id) === undefined)
  for (const programme of lacking.sort((a, b) => a.version - b.version)) {
    const { tookOverAtSeq } = programme
    const versions = tours.versions(night.id).map(({ version }) => version)
    const version = versions.includes(programme.version) ? Math.max(...versions) + 1 : programme.version
    const tour = programmeFromFile(programme, night.id)
    tours.add({ ...tour, version, tookOverAtSeq: tookOverAtSeq === null ? null : seqHere(tookOverAtSeq) })
  }
  return { marks: missing.length, programmes: lacking.length }
}
