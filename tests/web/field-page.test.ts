import { describe, expect, it } from 'vitest'
import type { Who } from '../../server/desk/desk.ts'
import type { Mark } from '../../server/tours/mark.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { type FieldPage, type FieldSubject, fieldPage } from '../../server/web/pages/field.ts'
import type { FieldAct } from '../../server/web/pages/field-acts.ts'
import type { Viewer } from '../../server/web/pages/sheet.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_MARK, BARE_FIELD, FIELD } from '../support/field-subject.ts'
import { A_GOOD_NOW, NOTHING_NOW } from '../support/good-now-data.ts'
import { THE_HOST } from '../support/join-data.ts'
import { A_FIELD, A_STATION_NOW, HOST, TOUR, VISITOR } from '../support/page-data.ts'

const [station] = A_NIGHT.stations
if (!station) throw new Error('The night of the tests has a station')
const operator = (more: Partial<Who> = {}): Viewer => ({
  ...HOST,
  mayHost: false,
  who: { ...THE_HOST, role: 'operator', nightId: A_NIGHT.id, ...more },
})
const OPERATOR = operator()

let keys = 0
const newKey = () => `key-${++keys}-abcdef`
const page = (more: Partial<FieldSubject> = {}, viewer = OPERATOR): FieldPage =>
  fieldPage(viewer, { ...FIELD, news: BARE_FIELD.news, newKey, ...more }, station)
const withState = (state: Partial<typeof A_STATION_NOW>) => ({
  field: { ...A_FIELD, stations: [{ ...A_STATION_NOW, ...state }] },
})
const carried = (act: FieldAct | null | undefined) =>
  Object.fromEntries((act?.fields ?? []).filter(({ name }) => name !== 'key').map(({ name, value }) => [name, value]))

describe('the page of a station', () => {
  it('says what is on, until when and because of what, what comes next, and goes on to it in one tap', () => {
    const { station: name, now, until, next, main, trouble } = page()
    expect({ name, now, until, next }).toEqual({
      name: 'By the oak',
      now: 'Great cluster in Hercules',
      until: 'until 19:40: oak',
      next: '19:30 Great cluster in Hercules, close up',
    })
    expect(main?.text).toBe('Now showing next: Great cluster in Hercules, close up')
    expect(main?.action).toBe('/field/night-1/marks')
    expect(carried(main)).toEqual({
      kind: 'showing',
      stationId: 'station-1',
      back: '/field/night-1/station-1',
      targetKey: 'm13',
      aim: 'close',
    })
    expect(trouble).toMatchObject({ summary: 'Trouble', told: 'cloud in the way.' })
    expect(trouble?.acts.map(({ text }) => text)).toEqual([
      'Cloud',
      'Trees',
      'Help, please',
      'All is well again: Great cluster in Hercules',
    ])
  })

  it('says when the plan moves on where the thing could stay another quarter hour', () => {
    const oak = { at: new Date('2026-11-20T18:47:00Z'), cause: { code: 'skyline', name: 'oak' } } as const
    const later = (stop: Stop): Stop => ({ ...stop, leaveBy: oak })
    expect(page({ tour: { ...TOUR, stops: TOUR.stops.map(later) } }).until).toBe('until 19:30')
  })

  it('says of what nobody has planned when the sky ends it, or else when the next stop begins', () => {
    const unplanned = { ...withState({ untilAt: new Date('2026-11-20T19:00:00Z') }), tour: { ...TOUR, stops: [] } }
    expect(page(unplanned).until).toBe('until 19:40: oak')
    expect(page({ ...unplanned, good: null }).until).toBe('until 20:00')
    expect(page({ ...unplanned, ...withState({ untilAt: null }) }).until).toBe('until 19:40: oak')
    expect(page({ ...unplanned, ...withState({ untilAt: null }), good: null }).until).toBeNull()
  })

  it('confirms once what is on when nothing comes next, and has no large button when nothing is known', () => {
    const last = page(withState({ next: null }))
    expect([last.next, last.main]).toEqual(['nothing is planned', null])
    const unsaid = page({ ...withState({ next: null }), standing: [] })
    expect(unsaid.main?.text).toBe('Mark as showing: Great cluster in Hercules')
    const before = { ...A_MARK, happenedAt: new Date(0) }
    expect(page({ ...withState({ next: null }), standing: [before] }).main).not.toBeNull()
    const idle = page(withState({ next: null, showing: null, untilAt: null }))
    expect(idle).toMatchObject({ now: 'Nothing is planned now', until: null, main: null, about: null, skip: null })
  })

  it('gives every form a key of its own', () => {
    const { main, trouble, skip, seen, takeBack, other } = page()
    const groups = [trouble, skip, seen].flatMap((group) => group?.acts ?? [])
    const things = [...(other?.things ?? []), ...(other?.found ?? [])].flatMap(({ act }) => act ?? [])
    const acts = [main, takeBack, ...groups, ...things]
    const made = acts.map((act) => act?.fields.find(({ name }) => name === 'key')?.value)
    expect(made).toHaveLength(15)
    expect(new Set(made).size).toBe(15)
  })

  it('asks who saw what is showing, and nothing while nothing is', () => {
    const { seen } = page()
    expect(seen?.label).toBe('Who saw Great cluster in Hercules?')
    expect(seen?.acts.map(({ text }) => text)).toEqual(['They saw it', 'Half of them', 'They did not'])
    expect(seen?.acts.map(carried)).toMatchObject(
      ['they', 'half', 'not'].map((who) => ({ kind: 'seen', stationId: 'station-1', targetKey: 'm13', who })),
    )
    expect(page(withState({ showing: null })).seen).toBeNull()
  })

  it('tells about the thing: where it stands, what to put in, and the words of its card', () => {
    expect(page().about).toMatchObject({
      direction: 'Now west-north-west, 2½ fists up.',
      setups: ['Eyepiece wide, 48 times'],
      height: 'The eyepiece is 131 cm above the ground.',
      kind: 'Globular star cluster in Hercules',
      see: 'A round, grainy glow.',
      parts: expect.arrayContaining([expect.objectContaining({ text: 'Single stars at its edge.' })]),
    })
    expect(page({ good: null }).about).toMatchObject({ direction: null, setups: ['Eyepiece wide, 48 times'] })
  })

  it('offers no act to a visitor, and says so', () => {
    const { main, trouble, skip, seen, takeBack, other, readOnlyText } = page({}, VISITOR)
    expect([main, trouble, skip, seen, takeBack]).toEqual([null, null, null, null, null])
    expect(other?.found.map(({ act }) => act)).toEqual([null, null, null, null])
    expect(readOnlyText).toContain('You can read here')
    expect(page().readOnlyText).toBeNull()
  })

  it('leads the host and the host’s phone to the change of plan, and nobody else', () => {
    const hrefs = (viewer: Viewer) => page({}, viewer).ways.map(({ href }) => href)
    expect(hrefs(operator({ role: 'host-phone' }))).toContain('/nights/night-1/again')
    expect(hrefs({ ...HOST, who: THE_HOST })).toContain('/nights/night-1/again')
    expect([...hrefs(OPERATOR), ...hrefs(VISITOR)]).not.toContain('/nights/night-1/again')
  })

  it('tells of clouds and of having left the row before anything else', () => {
    expect(page().banners).toEqual([])
    expect(page({ news: FIELD.news }).banners).toEqual(['Has left the row', 'Clouds until 19:30: north and overhead'])
  })
})

describe('taking back', () => {
  const mark = (seq: number, more: Partial<Mark>): Mark => ({ ...A_MARK, seq, key: `mark-key-${seq}`, ...more })
  const takeBack = (standing: readonly Mark[], viewer = OPERATOR) => page({ standing }, viewer).takeBack

  it.each([
    ['showing', { targetKey: 'm13', aim: 'close' }, 'now showing Great cluster in Hercules, close up'],
    ['shown', { targetKey: 'm13' }, 'Great cluster in Hercules is over'],
    ['skipped', { targetKey: 'm13', why: 'cloud' }, 'skip Great cluster in Hercules'],
    ['trouble', { what: 'help' }, 'help wanted'],
    ['seen', { targetKey: 'm13', who: 'half' }, 'half of them saw Great cluster in Hercules'],
    ['timed', { people: 10, seconds: 420 }, '10 people in 420 seconds'],
  ] as const)('names the act: %s', (kind, payload, what) => {
    const act = takeBack([mark(4, { kind, payload })])
    expect(act?.text).toBe(`Take back: ${what}`)
    expect(carried(act)).toMatchObject({ kind: 'undo', stationId: 'station-1', markKey: 'mark-key-4' })
  })

  it('means the newest act of this station that whoever looks may take back', () => {
    const marks = [
      mark(4, { kind: 'trouble', payload: { what: 'cloud' } }),
      mark(9, { kind: 'trouble', payload: { what: 'help' }, stationId: 'station-2' }),
      mark(6, { kind: 'station', payload: { is: 'out' } }),
      mark(3, {}),
    ]
    expect(takeBack(marks)?.text).toBe('Take back: trouble with cloud')
    expect(takeBack(marks, operator({ role: 'host-phone' }))?.text).toBe('Take back: this station has left the row')
    expect(takeBack([])).toBeNull()
  })
})

describe('showing something else', () => {
  it('lists things with where they stand and how long, each an act', () => {
    const { summary, isOpen, things, found, note } = page({ query: '', good: { ...A_GOOD_NOW, asked: [] } }).other ?? {}
    expect([summary, isOpen, found, note]).toEqual(['Show something else', false, [], null])
    expect(things?.map(({ name, where }) => [name, where])).toEqual([
      ['saturn', 'west-north-west, 2½ fists up, until 19:40: oak. 25 minutes left.'],
      ['moon, close up', 'west-north-west, 2½ fists up, to the end.'],
    ])
    expect(things?.map(({ act }) => carried(act))).toMatchObject([
      { kind: 'showing', targetKey: 'saturn', aim: 'whole' },
      { kind: 'showing', targetKey: 'moon', aim: 'close' },
    ])
  })

  it('says of what was asked for where it is, or why it is not for now', () => {
    const { isOpen, things, found = [] } = page().other ?? {}
    expect([isOpen, things]).toEqual([true, []])
    expect(found.map(({ name, note, act }) => [name, note, act !== null])).toEqual([
      ['Great cluster in Hercules', 'Under the lamp shows it now.', true],
      ['vega', 'The host asked not to show it here.', false],
      ['m42', null, false],
      ['m57', null, false],
    ])
    expect(found.map(({ where }) => where).slice(2)).toEqual([
      'Not now: oak. From 21:10.',
      'Not now and not again tonight: not up.',
    ])
  })

  it('says that it is still being worked out, that nothing is good, and that nothing answers', () => {
    expect(page({ good: null, query: '' }).other).toMatchObject({
      things: [],
      note: 'This is still being worked out.',
      again: { href: '/field/night-1/station-1' },
    })
    expect(page({ good: null, query: 'a b' }).other?.again?.href).toBe('/field/night-1/station-1?q=a%20b')
    const none = 'Nothing on the outreach list answers to her.'
    expect(page({ good: NOTHING_NOW }).other).toMatchObject({ note: none, again: null })
    expect(page({ good: NOTHING_NOW, query: '' }).other?.note).toContain('Nothing else')
  })

  it('is not offered by a station that is no telescope', () => {
    const bare = { ...station, telescope: null }
    expect(fieldPage(OPERATOR, FIELD, bare)).toMatchObject({ other: null, slip: null })
  })
})

describe('the slip of the half hour and the evening', () => {
  it('gives name, until, direction and fists of this station alone, and what changed', () => {
    expect(page().slip).toMatchObject({
      summary: 'Check of 19:15',
      rows: [
        { name: 'Great cluster in Hercules', text: 'Going, until 19:40: oak: west-north-west, 2½ fists up.' },
        { text: 'Good, to the end: west-north-west, 2½ fists up.' },
        { text: 'Coming, from 20:10: below the horizon.' },
        { text: 'Gone: too high.' },
      ],
      changes: ['Great cluster in Hercules at By the oak leaves soon.'],
      note: null,
    })
    const check = { at: FIELD.checked.at, lines: [], changes: [] }
    expect(page({ checked: { at: check.at, check } }).slip?.note).toBe('Nothing.')
    expect(page({ checked: { at: check.at, check: null } }).slip?.note).toBe('This is still being worked out.')
    expect(page({ tour: undefined }).slip).toBeNull()
  })

  it('lists what was shown, and what the plan has from the next stop on', () => {
    const [stop] = TOUR.stops
    if (!stop) throw new Error('The tour of the tests has a stop')
    const next = { ...stop, aim: 'close' as const, startsAt: new Date('2026-11-20T18:30:00Z'), leaveBy: null }
    const tour = { ...TOUR, stops: [stop, { ...next, endsAt: new Date('2026-11-20T20:30:00Z') }] }
    expect(page({ tour }).evening?.rows).toEqual([
      { time: '18:30', text: 'Great cluster in Hercules, shown' },
      { time: '19:30', text: 'Great cluster in Hercules, close up, to the end' },
    ])
    expect(page({ tour, ...withState({ next: null, shown: [] }) }).evening).toBeNull()
  })
})
