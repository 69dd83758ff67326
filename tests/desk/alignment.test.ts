import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { alignmentDesk } from '../../server/desk/alignment.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { jobQueue } from '../../server/desk/jobs.ts'
import { FAINTEST_MAG } from '../../server/tours/alignment-stars.ts'
import type { Night } from '../../server/tours/night.ts'
import { meanErrorFactor } from '../../server/tours/pointing-error.ts'
import { placeOf } from '../../server/tours/site.ts'
import { readWordTables } from '../../server/web/language.ts'
import { brightStars } from '../support/bright-stars.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

/** A worker that tells what it was asked, and where it runs. */
const TELL_TALE = `
  const { isMainThread, parentPort } = require('node:worker_threads')
  parentPort.on('message', ({ id, job: { kind, at, stops } }) =>
    parentPort.postMessage({ id, value: { kind, isMainThread, at, stops } }))
`
const folder = freshFolder()
const DUSK = new Date('2026-12-17T17:00:00Z')
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

describe('alignment stars of a night', () => {
  it('are stars that the catalogue knows by that name, where it sees them', async () => {
    const pairs = await desk.alignment.pairs(night.id, DUSK)
    expect(pairs[0]?.stars.map(({ name }) => name)).toEqual(['Vega', 'Capella'])
    for (const { key, name, direction } of pairs.flatMap(({ stars }) => stars)) {
      expect(desk.objects.find(key)).toMatchObject({ canonicalKey: key, object: { name } })
      const [seen] = desk.sky.places(DUSK, placeOf(night.site), [key])
      expect(direction.altitudeDeg).toBeCloseTo(seen?.apparentAltitudeDeg ?? 0, 2)
      expect(direction.azimuthDeg).toBeCloseTo(seen?.azimuthDeg ?? 0, 2)
    }
  })

  it('are judged by the whole sky without a programme, and by its targets with one', async () => {
    const [before] = await desk.alignment.pairs(night.id, DUSK)
    const { stops } = await desk.tours.build(night.id, { steps: 60 })
    const [after] = await desk.alignment.pairs(night.id, DUSK)
    if (!before || !after) throw new Error('There is no pair')
    const [one, two] = before.stars
    expect(before.meanErrorFactor).toBe(meanErrorFactor(one.direction, two.direction, []))
    const targets = [...new Set(stops.map(({ targetKey }) => targetKey))].map((key) => targetOf(stops, key))
    const [first, second] = after.stars
    expect(after.meanErrorFactor).toBeCloseTo(meanErrorFactor(first.direction, second.direction, targets), 9)
  })

  it('are chosen in another thread than the one that answers pages', async () => {
    const jobs = jobQueue(TELL_TALE, null)
    const { sky } = desk
    const ask = alignmentDesk({ findNight: () => night, programme: () => undefined, sky, jobs, own: () => [] })
    expect(await ask.pairs(night.id, DUSK)).toEqual({ kind: 'alignment', isMainThread: false, at: DUSK, stops: [] })
    await jobs.close()
  })

  it('are proved by a thing that a wrong hour or date would move: the Moon, Saturn beside it being fainter', async () => {
    const [best] = await desk.alignment.pairs(night.id, DUSK)
    expect(best?.proof).toMatchObject({ key: 'moon', name: 'Moon' })
  })

  it('are looked for in the twilight, and are there from the time that is told', async () => {
    const sunset = new Date('2026-12-17T15:40:00Z')
    const { cause, fromAt } = await desk.alignment.outlook(night.id, sunset)
    expect(cause).toBe('bright')
    if (!fromAt) throw new Error('No star comes out')
    expect(fromAt.getTime() % 300_000).toBe(0)
    expect(await desk.alignment.pairs(night.id, fromAt)).not.toEqual([])
    const before = new Date(fromAt.getTime() - 300_000)
    expect(await desk.alignment.pairs(night.id, before)).toEqual([])
    expect(await desk.alignment.outlook(night.id, fromAt)).toEqual({ cause: null, fromAt })
    expect(await desk.alignment.outlook(night.id, new Date('2026-12-18T07:30:00Z'))).toEqual({
      cause: 'sun',
      fromAt: null,
    })
  })

  it('are those of the time of aligning on the timeline of the evening', async () => {
    const { sun, times, pairs } = await desk.alignment.setUp(night.id)
    expect(sun).toBe('sets')
    const alignAt = times.find(({ step }) => step === 'align')?.at
    if (!alignAt) throw new Error('Nothing is aligned')
    const { civilDuskAt } = desk.sky.evening(night.date, placeOf(night.site), night.site.zone)
    expect(alignAt).toEqual(civilDuskAt)
    expect(pairs).toEqual(await desk.alignment.pairs(night.id, alignAt))
    expect(pairs).not.toEqual([])
  })

  it('have a name that an English reader is told how to say', () => {
    const { en = {} } = readWordTables()
    const names = brightStars()
      .filter(({ magnitude }) => magnitude <= FAINTEST_MAG)
      .map(({ key }) => desk.objects.find(key).object.name)
    expect(names.length).toBeGreaterThan(45)
    const unsaid = names.filter((name) => !(`align.said-${name.toLowerCase().replaceAll(' ', '-')}` in en))
    expect(unsaid).toEqual([])
  })

  it('are none by day', async () => {
    expect(await desk.alignment.pairs(night.id, new Date('2026-12-17T12:00:00Z'))).toEqual([])
  })

  it('are not to be had for a night that nobody planned', async () => {
    await expect(desk.alignment.pairs('no-such-night', DUSK)).rejects.toMatchObject({ code: 'not-found' })
  })

  function targetOf(stops: readonly { targetKey: string; startsAt: Date; endsAt: Date }[], key: string) {
    const stop = stops.find(({ targetKey }) => targetKey === key)
    if (!stop) throw new Error(`${key} is not shown`)
    const middleAt = new Date((stop.startsAt.getTime() + stop.endsAt.getTime()) / 2)
    const [place] = desk.sky.places(middleAt, placeOf(night.site), [key])
    if (!place) throw new Error(`${key} is nowhere`)
    return { altitudeDeg: place.apparentAltitudeDeg, azimuthDeg: place.azimuthDeg }
  }
})
