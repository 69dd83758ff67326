import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { MarkDraft } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const folder = freshFolder()
const clock = standingClock('2026-12-17T17:30:00.000Z')
let desk: Desk
let night: Night
let other: Night
let stationId = ''
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
  night = seedEvening(desk, north)
  other = seedEvening(desk, north)
  stationId = night.stations[0]?.id ?? ''
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

let count = 0
const showing = (changes: Partial<MarkDraft> = {}): MarkDraft => ({
  key: `phone-a-${String(++count).padStart(4, '0')}`,
  kind: 'showing',
  stationId,
  payload: { targetKey: 'saturn', aim: 'whole' },
  secondsAgo: 0,
  ...changes,
})
const send = (...drafts: unknown[]) => desk.marks.record(night.id, drafts, 'Mirela', 'host')
const record = (...drafts: MarkDraft[]) => send(...drafts).kept
const kept = () => desk.marks.since(night.id, 0).map(({ key }) => key)
const refusal = (work: () => unknown): unknown => {
  try {
    work()
  } catch (error) {
    return error
  }
  throw new Error('It was taken')
}

describe('a mark', () => {
  it('is kept with who made it, when it came and when it happened', () => {
    const [mark] = record(showing({ secondsAgo: 90 }))
    expect(mark).toMatchObject({ nightId: night.id, stationId, kind: 'showing', by: 'Mirela' })
    expect(mark?.receivedAt.toISOString()).toBe('2026-12-17T17:30:00.000Z')
    expect(mark?.happenedAt.toISOString()).toBe('2026-12-17T17:28:30.000Z')
  })

  it('sent again is the kept one, even when the phone says another age for it', () => {
    const draft = showing({ secondsAgo: 5 })
    const first = record(draft)
    const before = kept()
    expect(record({ ...draft, secondsAgo: 65 })).toEqual(first)
    expect(record(draft, draft)).toEqual([...first, ...first])
    expect(kept()).toEqual(before)
  })

  it('raises the version of its night and of no other', () => {
    const [before, beforeOther] = [desk.marks.version(night.id), desk.marks.version(other.id)]
    const [mark] = record(showing())
    const [epoch] = before.split('.')
    expect(desk.marks.version(night.id)).toBe(`${epoch}.${mark?.seq}`)
    expect(desk.marks.version(night.id)).not.toBe(before)
    expect(desk.marks.version(other.id)).toBe(beforeOther)
  })

  it('can be asked for by everything after a number', () => {
    const [first, second] = record(showing(), showing())
    expect(desk.marks.since(night.id, first?.seq ?? 0)).toEqual([second])
  })

  it('shows on the field', () => {
    record(showing({ payload: { targetKey: 'm45', aim: 'whole' } }))
    const now = desk.marks.field(night.id).stations.find((station) => station.stationId === stationId)
    expect(now?.showing?.targetKey).toBe('m45')
  })

  it('may be undone by the mark right behind it in the same list', () => {
    const draft = showing()
    const marks = record(draft, showing({ kind: 'undo', payload: { markKey: draft.key } }))
    expect(marks.map(({ kind }) => kind)).toEqual(['showing', 'undo'])
  })
})

describe('a mark that cannot be kept', () => {
  it.each<[string, string, () => Partial<MarkDraft>]>([
    ['without what its kind needs', 'payload.aim', () => ({ payload: { targetKey: 'saturn' } })],
    ['at a station of another night', 'stationId', () => ({ stationId: other.stations[0]?.id ?? '' })],
    [
      'about a thing that the catalogue does not know',
      'payload.targetKey',
      () => ({
        payload: { targetKey: 'nothing-of-the-kind', aim: 'whole' },
      }),
    ],
    ['that undoes what nobody did', 'payload.markKey', () => ({ kind: 'undo', payload: { markKey: 'no-such-mark' } })],
    [
      'that accepts a programme nobody built',
      'payload.tourId',
      () => ({ kind: 'accepted', payload: { tourId: 'none' } }),
    ],
    ['of a kind that does not exist', 'kind', () => ({ kind: 'shouted' as 'shown' })],
    ['with a key too short to be its own', 'key', () => ({ key: 'a' })],
    ['from the future', 'secondsAgo', () => ({ secondsAgo: -1 })],
    ['that shows something at no station', 'stationId', () => ({ stationId: null })],
    [
      'that carries what its kind does not know',
      'payload.colour',
      () => ({ payload: { targetKey: 'saturn', aim: 'whole', colour: 'red' } }),
    ],
  ])('%s is refused by its key with the field %s, and those sent with it are kept', (_, field, changes) => {
    const before = kept()
    const [first, wrong, last] = [showing(), showing(changes()), showing()]
    const answer = send(first, wrong, last)
    expect(answer.kept.map(({ key }) => key)).toEqual([first.key, last.key])
    expect(answer.refused).toMatchObject([{ key: wrong.key, problems: [{ field }] }])
    expect(kept()).toEqual([...before, first.key, last.key])
  })

  it('alone is refused outright, with its place before the field', () => {
    const before = kept()
    const error = refusal(() => send(showing({ kind: 'shouted' as 'shown' }), showing({ secondsAgo: -1 })))
    expect(error).toMatchObject({ code: 'invalid', problems: [{ field: '0.kind' }, { field: '1.secondsAgo' }] })
    expect(kept()).toEqual(before)
  })

  it.each([
    ['nothing', null],
    ['a word', 'saturn'],
    ['a thing without a key', {}],
  ])('may be %s', (_, draft) => {
    const good = showing()
    expect(send(draft, good)).toMatchObject({ kept: [{ key: good.key }], refused: [{ key: null }] })
  })

  it('stays refused when the whole sending is repeated, and what was kept stays the same', () => {
    const drafts = [showing(), showing({ stationId: null }), showing()]
    const first = send(...drafts)
    const before = kept()
    expect(send(...drafts)).toEqual(first)
    expect(kept()).toEqual(before)
  })

  it('takes with it the undo that names it', () => {
    const wrong = showing({ stationId: null })
    const good = showing()
    const answer = send(wrong, showing({ kind: 'undo', payload: { markKey: wrong.key } }), good)
    expect(answer.kept.map(({ key }) => key)).toEqual([good.key])
    expect(answer.refused.map(({ problems }) => problems[0]?.field)).toEqual(['stationId', 'payload.markKey'])
  })

  it('names another act under a key that is taken', () => {
    const draft = showing()
    record(draft)
    const error = refusal(() => record({ ...draft, payload: { targetKey: 'moon', aim: 'whole' } }))
    expect(error).toMatchObject({ code: 'invalid', problems: [{ field: '0.key', key: 'problem.key-taken' }] })
    expect(refusal(() => desk.marks.record(other.id, [draft], 'Jonas', 'operator'))).toMatchObject({ code: 'invalid' })
  })

  it('belongs to no night', () => {
    expect(refusal(() => desk.marks.record('nowhere', [showing()], 'Mirela', 'operator'))).toMatchObject({
      code: 'not-found',
      key: 'fault.no-night',
    })
  })

  it('undoes a mark of another night', () => {
    const { kept: marks } = desk.marks.record(
      other.id,
      [showing({ stationId: other.stations[0]?.id ?? '' })],
      'Jonas',
      'operator',
    )
    const undo = showing({ kind: 'undo', payload: { markKey: marks[0]?.key ?? '' } })
    expect(refusal(() => record(undo))).toMatchObject({ problems: [{ key: 'problem.mark-unknown' }] })
  })
})

it('a station taken out of the row still gets the marks that were on their way', () => {
  const spare = seedEvening(desk, north)
  const gone = spare.stations.at(-1)?.id ?? ''
  const stations = north.night.stations.slice(0, 3).map((station, i) => ({
    ...station,
    telescopeId: spare.stations[i]?.telescope?.id ?? null,
  }))
  const changed = desk.nights.change(spare.id, { ...north.night, siteId: spare.site.id, stations })
  expect(changed.stations.map(({ id }) => id)).not.toContain(gone)
  expect(desk.marks.record(spare.id, [showing({ stationId: gone })], 'Pirkko', 'operator').kept).toHaveLength(1)
})

describe('people counted in', () => {
  const counted = (adults: number, children: number, secondsAgo = 0) =>
    showing({ kind: 'counted', stationId: null, payload: { adults, children }, secondsAgo })
  const people = (nightId: string) => {
    const { adultsIn, childrenIn } = desk.marks.field(nightId)
    return [adultsIn, childrenIn]
  }

  it('are never fewer than none, and a slip leaves no debt', () => {
    const { id } = seedEvening(desk, north)
    desk.marks.record(id, [counted(-300, -1)], 'Jonas', 'operator')
    expect(people(id)).toEqual([0, 0])
    desk.marks.record(id, [counted(4, 2)], 'Jonas', 'operator')
    expect(people(id)).toEqual([4, 2])
  })

  it('come out right when those who came are heard of after those who left', () => {
    const { id } = seedEvening(desk, north)
    desk.marks.record(id, [counted(-5, 0)], 'Jonas', 'operator')
    desk.marks.record(id, [counted(10, 3, 120)], 'Pirkko', 'operator')
    expect(people(id)).toEqual([5, 3])
  })
})

it(
  'marks get another epoch at every start, since a backup may have been put in their place',
  async () => {
    const before = desk.marks.version(night.id).split('.')
    await desk.close()
    desk = await openDesk(folder, { clock })
    const after = desk.marks.version(night.id).split('.')
    expect(after[1]).toBe(before[1])
    expect(after[0]).not.toBe(before[0])
  },
  SLOW_MS,
)
