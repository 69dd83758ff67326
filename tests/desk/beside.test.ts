import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { ALL_KINDS, halvesOf, linesOf } from '../support/beside-night.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { A_PASS_DRAFT } from '../support/own-object-data.ts'

const folder = freshFolder()
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder)
  const siteId = desk.sites.add(north.site).id
  const stations = ALL_KINDS.map((kind) => ({
    name: `The ${kind}`,
    kind,
    telescopeId: null,
    operator: '',
    isForChildren: false,
  }))
  night = desk.nights.add({ ...north.night, siteId, stations })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const idOf = (kind: string): string => night.stations.find((station) => station.kind === kind)?.id ?? ''

describe('stations beside the telescopes at the desk', () => {
  it(
    'have their half hours without a programme, worked out once for the same night',
    async () => {
      const halves = await desk.beside(night.id, undefined)
      expect(halves).toHaveLength(24)
      expect(new Set(halves.map(({ stationId }) => stationId))).toEqual(new Set(night.stations.map(({ id }) => id)))
      expect(halves[0]?.fromAt).toEqual(nightHours(night).opensAt)
      expect(await desk.beside(night.id, undefined)).toBe(halves)
      await expect(desk.beside('none', undefined)).rejects.toMatchObject({ key: 'fault.no-night' })
    },
    SLOW_MS,
  )

  it(
    'know what the host has entered that passes over, and forget what was taken off the list',
    async () => {
      const { opensAt } = nightHours(night)
      const at = (minutes: number) => new Date(opensAt.getTime() + 60_000 * minutes).toISOString()
      const { key } = desk.own.add({ ...A_PASS_DRAFT, fromAt: at(42), toAt: at(48) })
      const passes = linesOf(halvesOf(await desk.beside(night.id, undefined), idOf('bare-eye')), 'pass')
      expect(passes.map(({ line }) => [line.targetKey, line.fromAt.toISOString()])).toEqual([[key, at(42)]])
      desk.own.retire(key)
      expect(linesOf(await desk.beside(night.id, undefined), 'pass')).toEqual([])
    },
    SLOW_MS,
  )

  it('are none in a row of telescopes, and nobody is asked', async () => {
    const telescopeId = desk.telescopes.add(north.telescopes[0] as (typeof north.telescopes)[number]).id
    const stations = [{ name: 'One', kind: 'telescope', telescopeId, operator: '', isForChildren: false } as const]
    const row = desk.nights.add({ ...north.night, siteId: night.site.id, stations })
    expect(await desk.beside(row.id, undefined)).toEqual([])
  })
})
