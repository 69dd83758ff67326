import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import type { NightFile } from '../../server/tours/night-file.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { A_COMET_DRAFT } from '../support/own-object-data.ts'

const clock = standingClock(AFTERNOON)
const folders: string[] = []
const desks: Desk[] = []
let from: Desk
let night: Night
let text = ''

async function anotherLaptop(): Promise<Desk> {
  const folder = freshFolder()
  folders.push(folder)
  const desk = await openDesk(folder, { clock })
  desks.push(desk)
  return desk
}

const HOST = { role: 'host', name: 'Ada' } as const
let sent = 0
const act = (desk: Desk, kind: string, payload: object, stationId: string | null = night.stations[0]?.id ?? '') => {
  sent += 1
  const key = `carried-act-${sent}`
  desk.marks.record(night.id, [{ key, kind, stationId, payload, secondsAgo: 0 }], 'Ada', 'host')
  return key
}
/** What is wrong, each with its place. */
const problemsOf = (bring: () => unknown): (readonly [field: string, key: string])[] => {
  try {
    bring()
  } catch (error) {
    if (error instanceof Fault) return error.problems.map(({ field, key }) => [field, key])
    throw error
  }
  return []
}
const changed = (change: (file: NightFile) => object): string => JSON.stringify(change(JSON.parse(text)))

/** A file without the instant at which it was saved, and without the numbers of marks, which are this laptop's own. */
const plain = (file: NightFile) => ({
  ...file,
  savedAt: '',
  marks: file.marks.map((mark) => ({ ...mark, seq: 0 })),
  programmes: file.programmes.map((programme) => ({ ...programme, tookOverAtSeq: programme.tookOverAtSeq !== null })),
})

beforeAll(async () => {
  from = await anotherLaptop()
  night = seedEvening(from, north)
  const { key } = from.own.add({ ...A_COMET_DRAFT, name: 'Comet of the mill' })
  from.own.change(key, { ...A_COMET_DRAFT, name: 'Comet of the mill', magnitude: 7.7 })
  from.words.put('m31', 'en', { see: 'A long pale cloud.' })
  from.words.put('m31', 'en', { see: 'A pale cloud over the mill.' }, night.id)
  from.go.enter(night.id, { cloud: 20, wind: 8 }, HOST)
  from.go.decide(night.id, 'on', 'Clear enough.', HOST)
  await from.tours.build(night.id, { steps: 5000 })
  clock.moveTo('2026-12-17T17:20:00Z')
  act(from, 'counted', { adults: 12, children: 7 }, null)
  const shown = act(from, 'showing', { targetKey: key, aim: 'whole' })
  act(from, 'undo', { markKey: shown }, null)
  act(from, 'showing', { targetKey: 'm31', aim: 'whole' })
  act(from, 'seen', { targetKey: 'm31', who: 'they' })
  const again = await from.tours.build(night.id, { steps: 5000 })
  act(from, 'accepted', { tourId: again.id }, null)
  const draft = draftOf(from.nights.find(night.id))
  from.nights.change(night.id, { ...draft, stations: draft.stations.slice(0, -1) })
  from.reports.edit(night.id, { sky: 'Thin cloud.', weather: '', helpers: '', improve: '=SUM(A1)', adults: 14 })
  text = JSON.stringify(from.carry.nightFile(night.id))
}, SLOW_MS)
afterAll(async () => {
  for (const desk of desks) await desk.close()
  for (const folder of folders) removeFolder(folder)
})

describe('a night as a file', () => {
  it(
    'is the same night on an empty laptop: file, report, programme and marks',
    async () => {
      const to = await anotherLaptop()
      const brought = to.carry.bringNight(text, false)
      expect(brought).toMatchObject({ nightId: night.id, isNewNight: true, marks: 6, programmes: 2, differs: [] })
      expect(plain(to.carry.nightFile(night.id))).toEqual(plain(JSON.parse(text)))
      expect(to.tours.current(night.id)).toEqual(expect.objectContaining({ version: 2 }))
      const [there, here] = [to.tours.current(night.id), from.tours.current(night.id)]
      expect(there?.stops).toEqual(here?.stops)
      expect((await to.reports.of(night.id)).facts).toEqual((await from.reports.of(night.id)).facts)
      expect(to.reports.edits(night.id)).toEqual(from.reports.edits(night.id))
    },
    SLOW_MS,
  )

  it('holds no PIN, no token and no session', () => {
    expect(text).not.toContain('271828')
    expect(text).not.toMatch(/token|session|"pin"/i)
  })

  it(
    'changes nothing when it comes twice',
    async () => {
      const to = await anotherLaptop()
      to.carry.bringNight(text, false)
      const before = plain(to.carry.nightFile(night.id))
      for (const take of [false, true]) {
        const again = to.carry.bringNight(text, take)
        expect(again).toMatchObject({ isNewNight: false, marks: 0, programmes: 0, parts: 0, differs: [] })
      }
      expect(plain(to.carry.nightFile(night.id))).toEqual(before)
      expect([to.nights.all().length, to.sites.all().length]).toEqual([1, 1])
    },
    SLOW_MS,
  )

  it('brings only marks that are missing, tells what differs, and takes the file’s when the host says so', () => {
    const file: NightFile = JSON.parse(from.carry.nightFile(night.id) ? text : '')
    const mark = { ...file.marks[0], seq: 999_999, key: 'only-in-the-file' }
    const theirs = changed((it) => ({
      ...it,
      night: { ...it.night, title: 'As the other laptop says', closes: '19:30', visitors: [] },
      marks: [...it.marks, mark],
    }))
    expect(from.carry.bringNight(theirs, false)).toMatchObject({
      marks: 1,
      programmes: 0,
      differs: ['title', 'hours', 'visitors'],
    })
    expect(from.nights.find(night.id).title).toBe(night.title)
    expect(from.carry.bringNight(theirs, true)).toMatchObject({ marks: 0, differs: ['title', 'hours', 'visitors'] })
    expect(from.nights.find(night.id)).toMatchObject({ title: 'As the other laptop says', closes: '19:30' })
    expect(from.carry.bringNight(theirs, false)).toMatchObject({ marks: 0, differs: [] })
  })

  it(
    'gives ids that stand for another thing here new ones, and all that names them follows; and twice is once still',
    async () => {
      const to = await anotherLaptop()
      to.carry.bringNight(text, false)
      const other = changed((it) => {
        const renamed = JSON.stringify(it)
          .replaceAll('"carried-act-', '"another-act-')
          .replaceAll('Comet of the mill', 'Comet of the barn')
        const file: NightFile = JSON.parse(renamed)
        return {
          ...file,
          night: { ...file.night, title: 'Another night', date: '2026-12-18' },
          site: { ...file.site, name: 'The barn', latitudeDeg: 10 },
          stations: file.stations.map((station, i) => ({ ...station, id: `other-${i}` })),
          programmes: [],
          wishes: [],
          marks: file.marks
            .filter(({ kind }) => kind !== 'accepted')
            .map((mark, i) => ({
              ...mark,
              key: i === 0 ? 'carried-act-1' : mark.key,
              stationId: mark.stationId && 'other-0',
            })),
          things: file.things.map((thing) => ({ ...thing, draft: { ...thing.draft, raDeg: 11.5 }, before: [] })),
        }
      })
      const first = to.carry.bringNight(other, false)
      expect(first).toMatchObject({ isNewNight: true, marks: 5, differs: [] })
      expect(first.nightId).not.toBe(night.id)
      expect(to.nights.find(night.id).title).toBe(night.title)
      const brought = to.carry.nightFile(first.nightId ?? '')
      expect([brought.night.title, brought.site.name, brought.things[0]?.draft.name]).toEqual([
        'Another night',
        'The barn',
        'Comet of the barn',
      ])
      const shown = brought.marks.find(({ kind }) => kind === 'showing')
      expect(shown?.payload.targetKey).toBe(brought.things[0]?.key)
      expect(brought.marks.find(({ kind }) => kind === 'undo')?.payload.markKey).toBe(shown?.key)
      const again = to.carry.bringNight(other, false)
      expect(again).toEqual({ ...first, isNewNight: false, marks: 0, parts: 0 })
      expect([to.nights.all().length, to.sites.all().length, to.own.all().length]).toEqual([2, 2, 2])
    },
    SLOW_MS,
  )

  it(
    'is refused with the place that is wrong, and leaves nothing behind',
    async () => {
      const to = await anotherLaptop()
      const bring = (said: string) => problemsOf(() => to.carry.bringNight(said, false))
      expect(bring('')).toEqual([['', 'carry.empty']])
      expect(bring(text.slice(0, 5000))).toEqual([['', 'carry.damaged']])
      expect(bring('{"format":"other"}')).toEqual([['', 'carry.other-file']])
      expect(bring(JSON.stringify(from.carry.thingsFile()))).toEqual([['', 'carry.other-file']])
      expect(bring(changed((it) => ({ ...it, version: 2 })))).toEqual([['version', 'carry.newer']])
      expect(bring(changed((it) => ({ ...it, more: 1 })))).toEqual([['more', 'problem.unknown-field']])
      expect(bring(changed((it) => ({ ...it, site: { ...it.site, latitudeDeg: 91 } })))).toEqual([
        ['site.latitudeDeg', 'problem.range'],
      ])
      expect(bring(text.replace('"night":{', '"night":{"__proto__":{"a":1},'))).toEqual([
        ['night.__proto__', 'carry.bad-text'],
      ])
      expect(bring(changed((it) => ({ ...it, marks: [...it.marks, it.marks[0]] })))[0]?.[1]).toBe('carry.twice')
      expect(
        bring(changed((it) => ({ ...it, marks: it.marks.map((mark) => ({ ...mark, stationId: 'nowhere' })) })))[0],
      ).toEqual(['marks.0.stationId', 'carry.names-nothing'])
      expect(bring(' '.repeat(8 * 1024 * 1024) + text)).toEqual([['', 'carry.large']])
      expect([to.nights.all(), to.sites.all(), to.own.all()]).toEqual([[], [], []])
    },
    SLOW_MS,
  )
})

describe('things and words of one’s own as a file', () => {
  it(
    'are the same on another laptop, and twice is once',
    async () => {
      const to = await anotherLaptop()
      const things = JSON.stringify(from.carry.thingsFile())
      expect(to.carry.bringThings(things, false)).toMatchObject({ nightId: null, parts: 2, differs: [] })
      expect({ ...to.carry.thingsFile(), savedAt: '' }).toEqual({ ...from.carry.thingsFile(), savedAt: '' })
      expect(to.carry.bringThings(things, false)).toMatchObject({ parts: 0, differs: [] })
      to.words.put('m31', 'en', { see: 'What this laptop says.' })
      expect(to.carry.bringThings(things, false).differs).toEqual(['words'])
      expect(to.words.of('m31', 'en').own.see).toBe('What this laptop says.')
      to.carry.bringThings(things, true)
      expect(to.words.of('m31', 'en').own.see).toBe('A long pale cloud.')
    },
    SLOW_MS,
  )
})
