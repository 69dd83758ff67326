import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { FaultAsk } from '../../server/desk/fault-slices.ts'
import { faultDesk } from '../../server/desk/faults.ts'
import { jobQueue } from '../../server/desk/jobs.ts'
import type { Night } from '../../server/tours/night.ts'
import { placeOf } from '../../server/tours/site.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

/** A worker that tells what it was asked, and where it runs. */
const TELL_TALE = `
  const { isMainThread, parentPort } = require('node:worker_threads')
  parentPort.on('message', ({ id, job: { kind, targetKeys, otherPlaces } }) =>
    parentPort.postMessage({ id, value: { kind, isMainThread, targetKeys, otherPlaces } }))
`
const folder = freshFolder()
const EVENING = new Date('2026-12-17T17:20:00Z')
const HOUR_MS = 3_600_000
let desk: Desk
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder)
  night = seedEvening(desk, north)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const ask = (aimedKey: string, seen: FaultAsk['seen'], centredKeys: readonly string[] = []): FaultAsk => ({
  stage: centredKeys.length === 2 ? 'both' : 'before',
  centredKeys,
  aimedKey,
  seen,
})

describe('why a mount misses, over the catalogue', () => {
  it('offers what stands up: bodies, bright stars, and the targets of the programme', async () => {
    const before = await desk.faults(night.id, EVENING, null)
    expect(before.answer).toBeNull()
    expect(before.things.targets).toEqual([])
    expect(before.things.bodies.map(({ key }) => key)).toEqual(expect.arrayContaining(['moon', 'saturn']))
    for (const { key } of [...before.things.bodies, ...before.things.stars]) {
      const [seen] = desk.sky.places(EVENING, placeOf(night.site), [key])
      expect(seen?.apparentAltitudeDeg, key).toBeGreaterThanOrEqual(4.99)
    }
    await desk.tours.build(night.id, { steps: 60 })
    const { things } = await desk.faults(night.id, EVENING, null)
    expect(things.targets.length).toBeGreaterThan(2)
  })

  it('finds an hour from where a first star really stood to the mount', async () => {
    const place = placeOf(night.site)
    const key = 'hip24608'
    const [truly, believed] = [0, HOUR_MS].map(
      (ms) => desk.sky.places(new Date(EVENING.getTime() + ms), place, [key])[0],
    )
    if (!truly || !believed) throw new Error('Capella has a place')
    const rightDeg = (truly.azimuthDeg - believed.azimuthDeg) * Math.cos((truly.apparentAltitudeDeg * Math.PI) / 180)
    const upDeg = truly.apparentAltitudeDeg - believed.apparentAltitudeDeg
    const { answer } = await desk.faults(night.id, EVENING, ask(key, { kind: 'off', rightDeg, upDeg, noiseDeg: 0.5 }))
    expect(answer?.causes[0]?.cause).toBe('hour')
  })

  it('answers nothing about what is not up', async () => {
    const lost = { kind: 'lost' } as const
    expect((await desk.faults(night.id, EVENING, ask('no-such-star', lost))).answer).toBeNull()
    expect((await desk.faults(night.id, EVENING, ask('moon', lost, ['hip91262', 'hip60718']))).answer).toBeNull()
    expect((await desk.faults(night.id, EVENING, ask('moon', lost, ['hip91262', 'hip24608']))).answer).not.toBeNull()
  })

  it('is weighed in another thread than the one that answers pages, with the other places of the host', async () => {
    const jobs = jobQueue(TELL_TALE, null)
    const elsewhere = { ...night.site, id: 'other', latitudeDeg: 10 }
    const allSites = () => [night.site, elsewhere]
    const desks = faultDesk({ findNight: () => night, programme: () => undefined, allSites, jobs, own: () => [] })
    expect(await desks(night.id, EVENING, null)).toEqual({
      kind: 'faults',
      isMainThread: false,
      targetKeys: [],
      otherPlaces: [placeOf(elsewhere)],
    })
    await jobs.close()
  })
})
