import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { south } from '../../seed-demo/south.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { currentOf } from '../../server/desk/nights.ts'
import type { Night, NightDraft } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const folder = freshFolder()
const clock = standingClock('2026-12-17T17:20:00Z')
let desk: Desk
let winter: Night
let july: Night
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
  winter = seedEvening(desk, north)
  july = seedEvening(desk, south)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const problems = (work: () => unknown): unknown => {
  try {
    work()
  } catch (error) {
    return error
  }
  throw new Error('It was taken')
}

describe('the night on the board', () => {
  it.each([
    ['before the first night', '2026-11-01T12:00:00Z', 'winter'],
    ['during it', '2026-12-17T19:59:00Z', 'winter'],
    ['the morning after it, while the report is written', '2026-12-18T07:59:00Z', 'winter'],
    ['between the nights', '2026-12-18T08:01:00Z', 'july'],
    ['after the last', '2028-01-01T00:00:00Z', 'july'],
  ])('%s is the right one', (_, at, which) => {
    clock.moveTo(at)
    expect(desk.nights.current()?.id).toBe(which === 'winter' ? winter.id : july.id)
    clock.moveTo('2026-12-17T17:20:00Z')
  })

  it('is no longer one that is over when it is closed, or when another opens soon', () => {
    const at = new Date('2026-12-17T20:01:00Z')
    const late = { ...winter, id: 'late', opens: '22:00', closes: '23:00' }
    expect(currentOf([winter, july], at)?.id).toBe(winter.id)
    expect(currentOf([{ ...winter, state: 'closed' as const }, july], at)?.id).toBe(july.id)
    expect(currentOf([winter, late], at)?.id).toBe('late')
  })

  it('is the one under way or near, of however many a day', () => {
    const nights = [
      { ...winter, id: 'first', opens: '15:00', closes: '16:00' },
      { ...winter, id: 'second', opens: '18:00', closes: '19:00' },
      { ...winter, id: 'third', opens: '20:00', closes: '23:00' },
    ]
    const shownAt = (wallUtc: string) => currentOf(nights, new Date(`2026-12-17T${wallUtc}:00Z`))?.id
    expect(['13:00', '14:30', '17:30', '18:30', '19:30', '22:30'].map(shownAt)).toEqual([
      'first',
      'first',
      'second',
      'third',
      'third',
      'third',
    ])
  })

  it('is one that is off on its own day alone, where people look for word of it', () => {
    const off = { ...winter, id: 'off', state: 'off' as const }
    const shownAt = (at: string, nights = [off, july]) => currentOf(nights, new Date(at))?.id
    expect(['2026-12-16T12:00:00Z', '2026-12-17T12:00:00Z', '2026-12-17T20:01:00Z'].map((at) => shownAt(at))).toEqual([
      july.id,
      'off',
      july.id,
    ])
    expect(shownAt('2026-12-17T12:00:00Z', [off, winter])).toBe(winter.id)
    expect(shownAt('2026-12-17T07:00:00Z', [off, winter])).toBe(winter.id)
  })

  it('is one that is off today even while the one of last night is looked back on', () => {
    const off = { ...winter, id: 'off', date: '2026-12-18', state: 'off' as const }
    expect(currentOf([winter, off], new Date('2026-12-18T06:00:00Z'))?.id).toBe('off')
  })
})

describe('a night', () => {
  it('comes back with site, telescopes and half hours as they were typed in', () => {
    const found = desk.nights.find(winter.id)
    expect(draftOf(found)).toEqual({ ...north.night, siteId: winter.site.id, stations: draftOf(winter).stations })
    expect(found.site).toEqual({ ...north.site, id: winter.site.id })
    expect(found.stations[3]?.telescope?.tubes.map(({ apertureMm }) => apertureMm)).toEqual([72, 130])
  })

  it('that is over cannot be typed in', () => {
    clock.moveTo('2026-12-18T00:00:00Z')
    expect(problems(() => desk.nights.add(draftOf(winter)))).toMatchObject({
      code: 'invalid',
      problems: [{ field: 'date', key: 'problem.night-past' }],
    })
    clock.moveTo('2026-12-17T17:20:00Z')
  })

  it('at a site that is not kept names the field', () => {
    expect(problems(() => desk.nights.add({ ...draftOf(winter), siteId: 'nowhere' }))).toMatchObject({
      problems: expect.arrayContaining([{ field: 'siteId', key: 'problem.site-unknown' }]),
    })
  })

  it('with a telescope that is not in the kit names the station', () => {
    const draft = draftOf(winter)
    const [first, ...others] = draft.stations
    if (!first) throw new Error('The demo night has no station')
    const stations = [{ ...first, telescopeId: 'nothing' }, ...others]
    expect(problems(() => desk.nights.add({ ...draft, stations }))).toMatchObject({
      problems: [{ field: 'stations.0.telescopeId', key: 'problem.telescope-unknown' }],
    })
  })

  it('is offered no telescope that is put away, while a night that has it keeps it', () => {
    const [station] = winter.stations
    const telescope = station?.telescope
    if (!telescope) throw new Error('The first station of the demo is a telescope')
    desk.telescopes.putAway(telescope.id, true)
    expect(problems(() => desk.nights.add(draftOf(winter)))).toMatchObject({
      problems: [{ field: 'stations.0.telescopeId', key: 'problem.telescope-away' }],
    })
    expect(desk.nights.change(winter.id, draftOf(winter)).stations[0]?.telescope?.id).toBe(telescope.id)
    desk.telescopes.putAway(telescope.id, false)
  })

  it('that nobody kept is not found', () => {
    expect(problems(() => desk.nights.find('nowhere'))).toMatchObject({ code: 'not-found', key: 'fault.no-night' })
  })
})

describe('a changed night', () => {
  beforeEach(() => {
    july = seedEvening(desk, south)
  })
  const changed = (change: (draft: NightDraft) => NightDraft) => desk.nights.change(july.id, change(draftOf(july)))
  const idsByName = (night: Night) => Object.fromEntries(night.stations.map(({ name, id }) => [name, id]))

  it('keeps each station that moves within the row', () => {
    const turned = changed((draft) => ({ ...draft, stations: draft.stations.toReversed() }))
    expect(turned.stations.map(({ name }) => name)).toEqual(['Big reflector', 'Driven reflector', 'Low refractor'])
    expect(idsByName(turned)).toEqual(idsByName(july))
  })

  it('keeps a station that only gets another name', () => {
    const renamed = changed((draft) => ({
      ...draft,
      stations: draft.stations.map((station, i) => (i === 1 ? { ...station, name: 'By the gate' } : station)),
    }))
    expect(renamed.stations.map(({ id }) => id)).toEqual(july.stations.map(({ id }) => id))
  })

  it('gives a new station an id of its own', () => {
    const extra = { name: 'Bare eyes', kind: 'bare-eye', telescopeId: null, operator: '', isForChildren: true } as const
    const more = changed((draft) => ({ ...draft, stations: [extra, ...draft.stations] }))
    expect(new Set(more.stations.map(({ id }) => id)).size).toBe(4)
    expect(more.stations.slice(1).map(({ id }) => id)).toEqual(july.stations.map(({ id }) => id))
    expect(more.stations[0]).toMatchObject({ operator: '', telescope: null })
  })

  it('remembers a station that left the row, by its name', () => {
    const left = july.stations[2]
    const fewer = changed((draft) => ({ ...draft, stations: draft.stations.slice(0, 2) }))
    expect(fewer.stations).toHaveLength(2)
    expect(desk.nights.everyStation(july.id).find(({ id }) => id === left?.id)?.name).toBe('Big reflector')
  })

  it('stays as it is once it is closed, until it is opened again', () => {
    clock.moveTo('2027-07-31T12:00:00Z')
    desk.reports.close(july.id)
    const tomorrow = (draft: NightDraft): NightDraft => ({ ...draft, date: '2027-08-01' })
    expect(problems(() => changed(tomorrow))).toMatchObject({ problems: [{ key: 'problem.night-closed' }] })
    desk.reports.reopen(july.id)
    expect(changed(tomorrow).date).toBe('2027-08-01')
    clock.moveTo('2026-12-17T17:20:00Z')
  })
})
