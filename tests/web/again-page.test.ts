import { describe, expect, it } from 'vitest'
import { changesOf } from '../../server/tours/changes.ts'
import { againPage } from '../../server/web/pages/again.ts'
import { nightNav } from '../../server/web/pages/night-links.ts'
import { programmeNotes } from '../../server/web/pages/programme-notes.ts'
import { AN_AGAIN, NEW, NOTHING_AGAIN, OLD, stopOf } from '../support/again-data.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { HOLDING, HOST, NAMES, VISITOR } from '../support/page-data.ts'

const ADDRESS = '/nights/night-1/again'
const newKey = () => 'key-12345'
const subject = {
  night: A_NIGHT,
  state: AN_AGAIN,
  versions: [OLD, NEW],
  form: { values: {}, problems: [] },
  trouble: null,
  names: NAMES,
  newKey,
}

describe('what is known and what the field says', () => {
  it('is told line by line', () => {
    const { known, field } = againPage(HOST, subject)
    expect(known).toEqual([
      'Behind clouds until 19:15: west, north-west, and overhead.',
      'Out of the row: station-2.',
      'By the oak: 46 seconds a look, as timed.',
      '28 people were counted on the field.',
      'That is 80 per cent of those expected.',
    ])
    expect(field).toEqual([
      'By the oak shows m42, not Great cluster in Hercules as planned.',
      'By the oak: cloud in the way.',
    ])
  })

  it('is calm while nothing has happened', () => {
    const page = againPage(HOST, { ...subject, state: NOTHING_AGAIN })
    expect([page.known, page.field]).toEqual([
      ['So far the night runs as it was planned.'],
      ['Every telescope shows what is planned.'],
    ])
    expect(page.newOne).toBeNull()
    expect(page.form?.note).toContain('at once')
  })

  it('tells of a telescope that shows nothing, or something where nothing is planned, but not of one that is out', () => {
    const [station] = AN_AGAIN.field.stations
    if (!station) throw new Error('The field of the tests has a station')
    const told = (more: object, out: readonly string[] = [], at = AN_AGAIN.at) => {
      const field = { ...AN_AGAIN.field, stations: [{ ...station, trouble: null, ...more }] }
      return againPage(HOST, { ...subject, state: { ...AN_AGAIN, at, field, news: { ...AN_AGAIN.news, out } } }).field
    }
    const nothing = { showing: null }
    expect(told(nothing)).toEqual(['By the oak shows nothing. Great cluster in Hercules was planned.'])
    expect(told(nothing, ['station-1'])).toEqual(['Every telescope shows what is planned.'])
    const late = new Date('2026-11-20T19:30:00Z')
    expect(told(nothing, [], late)).toEqual(['Every telescope shows what is planned.'])
    expect(told({}, [], late)).toEqual(['By the oak shows m42. Nothing was planned there.'])
  })
})

describe('old beside new', () => {
  const lines = (newOne = againPage(HOST, subject).newOne) =>
    newOne?.changed.map(({ name, before, after }) => [
      name,
      before.map(({ when, name: thing, fate }) => `${when} ${thing} ${fate ?? ''}`.trim()),
      after.map(({ when, name: thing, fate }) => `${when} ${thing} ${fate}`),
    ])

  it('has a word for every line, and reasons for what is new', () => {
    expect(lines()).toEqual([
      [
        'By the oak',
        ['now to 19:30 Great cluster in Hercules', '19:30 to 20:00 m15 gone'],
        ['now to 19:15 Great cluster in Hercules ends sooner', '19:15 to 20:00 m31 new'],
      ],
      ['station-gone', [], ['19:00 to 20:00 Great cluster in Hercules new']],
    ])
    const [first] = againPage(HOST, subject).newOne?.changed ?? []
    expect(first?.after.map(({ reasons }) => reasons)).toEqual([
      [],
      ['In place of Great cluster in Hercules, which cannot be shown here then.'],
    ])
  })

  it('begins with how much changes, from when on, and the clouds', () => {
    expect(againPage(HOST, subject).newOne?.summary).toEqual([
      '2 changes.',
      'Nothing changes before 19:00.',
      'Behind clouds until 19:15: west, north-west, and overhead.',
    ])
    const summary = (after: typeof OLD.stops) => {
      const changes = changesOf(OLD.stops, after, AN_AGAIN.fromAt)
      return againPage(HOST, { ...subject, state: { ...AN_AGAIN, changes } }).newOne?.summary.slice(0, -1)
    }
    expect(summary(OLD.stops)).toEqual(['The new programme changes nothing from now on.'])
    expect(summary([stopOf('17:40', '19:00', { targetKey: 'm31' })])).toEqual(['1 change.', 'The first comes at once.'])
  })

  it('sets apart the stations at which nothing changes', () => {
    const stays = [...OLD.stops, stopOf('17:30', '19:00', { stationId: 'station-9' })]
    const changes = changesOf(stays, [...NEW.stops, ...stays.slice(-1)], AN_AGAIN.fromAt)
    const page = againPage(HOST, { ...subject, state: { ...AN_AGAIN, changes } })
    expect(page.newOne?.same.map(({ name, after }) => [name, after.map(({ fate }) => fate)])).toEqual([
      ['station-9', ['stays']],
    ])
  })

  it('is decided by the host alone', () => {
    expect(againPage(HOST, subject).newOne).toMatchObject({
      accept: { action: '/nights/night-1/programme/accept', text: 'Go by the new one' },
      drop: { action: '/nights/night-1/again/drop', text: 'Keep the old one' },
    })
    expect(againPage(VISITOR, subject)).toMatchObject({ form: null, newOne: { accept: null, drop: null } })
  })

  it('stands above every version, the newest first', () => {
    expect(againPage(HOST, subject).versions).toEqual([
      {
        href: '/nights/night-1/programme?version=2',
        text: 'Version 2, made at 18:40',
        why: 'The night had changed.',
        state: 'It waits for the host.',
      },
      {
        href: '/nights/night-1/programme?version=1',
        text: 'Version 1, made at 16:00',
        why: 'The first.',
        state: 'The row goes by it.',
      },
    ])
  })
})

describe('the ways there', () => {
  const places = (viewer: typeof HOST, hasTour: boolean) =>
    nightNav(viewer, { night: A_NIGHT, hasTour, here: null }).groups.flatMap(({ links }) =>
      links.map(({ href }) => href),
    )

  it('are on every page of the night for the host once there is a programme', () => {
    expect(places(HOST, true)).toContain(ADDRESS)
    expect(places(HOST, false)).not.toContain(ADDRESS)
    expect(places(VISITOR, true)).not.toContain(ADDRESS)
  })

  it('lead there from what waits, and from what is out of date once something is shown', () => {
    const at = (time: string) => ({ ...HOST, now: new Date(`2026-11-20T${time}:00Z`) })
    const note = (viewer: typeof HOST, more: object) =>
      programmeNotes(viewer, { night: A_NIGHT, tour: OLD, state: { ...HOLDING, ...more }, newKey })[0]
    expect(note(at('17:45'), { waiting: NEW })?.look?.href).toBe(`${ADDRESS}#new`)
    expect(note(at('17:45'), { isStale: true })).toMatchObject({ look: { href: ADDRESS }, act: null })
    expect(note(at('17:00'), { isStale: true })).toMatchObject({
      look: null,
      act: { action: '/nights/night-1/programme' },
    })
    expect(note({ ...VISITOR, now: at('17:45').now }, { isStale: true })).toMatchObject({ look: null, act: null })
  })
})
