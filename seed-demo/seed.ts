import type { Desk } from '../server/desk/desk.ts'
import type { Night } from '../server/tours/night.ts'
import type { DemoEvening } from './evening.ts'

type SetUp = Pick<Desk, 'sites' | 'telescopes' | 'nights'>

/** Puts a demo evening into a desk as a host would: site, telescopes, night. Answers the night. */
export function seedEvening(desk: SetUp, { site, telescopes, night }: DemoEvening): Night {
  const siteId = desk.sites.add(site).id
  const kit = telescopes.map((telescope) => desk.telescopes.add(telescope).id)
  const stations = night.stations.map((station) => ({ ...station, telescopeId: idIn(kit, station.telescopeId) }))
  return desk.nights.add({ ...night, siteId, stations })
}

function idIn(kit: readonly string[], place: string | null): string | null {
  if (place === null) return null
  const id = kit[Number(place)]
  if (id === undefined) throw new Error(`The demo has no telescope ${place}`)
  return id
}
