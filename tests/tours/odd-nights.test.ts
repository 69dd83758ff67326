import { isDeepStrictEqual } from 'node:util'
import { describe, expect, it } from 'vitest'
import { advance, finishTour } from '../../server/tours/build.ts'
import { halfHourCheck } from '../../server/tours/half-hour.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import type { Night, Station } from '../../server/tours/night.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { beginThinCloud, finishThinCloud, underThinCloud } from '../../server/tours/thin-cloud.ts'
import type { WishMatter } from '../../server/tours/wish.ts'
import { breachesOf } from '../support/checker.ts'
import { demoNight } from '../support/demo-night.ts'
import { beginOn, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const objects = FOR_TELESCOPES

function build(night: Night, list: readonly ShowObject[] = objects, steps = 20_000) {
  const evening = eveningOf(night, list)
  const { sky, chance } = evening
  const work = beginOn(evening, { seed: 3 })
  const isGoing = advance(work, steps)
  return { ...finishTour(work), sky, chance, isGoing }
}

const checked = (night: Night, stops: ReturnType<typeof build>['stops']) => ({
  night,
  objects,
  stops,
  ...nightHours(night),
})

describe('a night with nothing to plan', () => {
  it('without a telescope has no stops and says so', () => {
    const stations: readonly Station[] = [
      { id: 'guide', name: 'Sky guide', kind: 'bare-eye', operator: 'Lena', isForChildren: true, telescope: null },
    ]
    const built = build({ ...demoNight, stations })
    expect(built.stops).toEqual([])
    expect(built.spares).toEqual([])
    expect(built.notices).toEqual([{ code: 'tour.no-telescope' }])
    expect(built.isGoing).toBe(false)
  })

  it('under a midnight sun has no stops and says so', () => {
    const site = { ...demoNight.site, latitudeDeg: 69, longitudeDeg: 19, zone: 'Europe/Oslo' }
    const built = build({ ...demoNight, site, date: '2027-06-21' })
    expect(built.stops).toEqual([])
    expect(built.notices).toEqual([{ code: 'tour.daylight-all' }])
  })

  it('with an empty list of objects has no stops', () => {
    expect(build(demoNight, []).stops).toEqual([])
  })
})

describe('a night that opens by day', () => {
  it('shows nothing before sunset, and says when stations wait', () => {
    const night = { ...demoNight, date: '2027-05-14', opens: '20:00', closes: '23:00', visitors: [] }
    const built = build(night)
    const sunsetAt = built.sky.events.sunsetAt
    if (sunsetAt === null) throw new Error('No sunset in May')
    expect(built.stops.length).toBeGreaterThan(3)
    for (const stop of built.stops) expect(stop.startsAt.getTime()).toBeGreaterThanOrEqual(sunsetAt.getTime())
    expect(built.notices.map(({ code }) => code)).toContain('tour.station-without-target')
  })
})

describe('a night without a Moon', () => {
  it('keeps the rules that remain', () => {
    const night = { ...demoNight, date: '2026-12-09', opens: '18:00', closes: '20:00' }
    const built = build(night, objects, 40_000)
    expect(built.stops.some(({ targetKey }) => targetKey === 'moon')).toBe(false)
    expect(breachesOf(checked(night, built.stops))).toEqual([])
  })
})

describe('a night that begins between the quarters and lasts past midnight', () => {
  it('has stops that start at the opening or on a quarter', () => {
    const built = build({ ...demoNight, opens: '22:07', closes: '00:40', visitors: [] })
    const starts = built.stops.map(({ startsAt }) => startsAt.toISOString().slice(11, 16))
    expect(starts).toContain('21:07')
    expect(starts.filter((time) => time !== '21:07' && !/:(00|15|30|45)$/.test(time))).toEqual([])
  })
})

describe('rows of other sizes', () => {
  it('of one telescope goes with the Moon', () => {
    const built = build({ ...demoNight, stations: demoNight.stations.slice(2, 3) })
    expect(built.stops.map(({ targetKey }) => targetKey)).toContain('moon')
    expect(built.notices.map(({ code }) => code)).toContain('tour.no-chair-station')
  })

  it('of eight telescopes shows different things and keeps every rule that the checker knows', () => {
    const again = demoNight.stations.map((station) => ({ ...station, id: `${station.id}-again`, isForChildren: false }))
    const night = { ...demoNight, stations: [...demoNight.stations, ...again] }
    const built = build(night, objects, 60_000)
    const said = breachesOf(checked(night, built.stops))
    expect(said).toEqual([])
    expect(new Set(built.stops.map(({ stationId }) => stationId)).size).toBe(8)
  })
})

describe('when rules cannot all hold', () => {
  it('the stations that stay idle for it are named with their times', () => {
    const onlyMoon = objects.filter(({ key }) => key === 'moon')
    const built = build(demoNight, onlyMoon)
    const codes = built.notices.map(({ code }) => code)
    expect(codes).not.toContain('rule.at-once')
    expect(codes).not.toContain('rule.moon-always')
    const idle = built.notices.find(({ code }) => code === 'tour.station-idle')
    expect(idle?.values).toMatchObject({ from: '18:00', to: '21:00' })
    expect(built.stops.length).toBeLessThanOrEqual(2)
  })
})

describe('spares', () => {
  it("are on nobody else's list, at most four a station, and well placed for a time", () => {
    const built = build(demoNight)
    const shown = new Set(built.stops.map(({ targetKey }) => targetKey))
    expect(built.spares.length).toBeGreaterThan(4)
    for (const spare of built.spares) {
      expect(shown.has(spare.targetKey)).toBe(false)
      expect(spare.untilAt.getTime()).toBeGreaterThan(spare.fromAt.getTime())
    }
    const at = instantOf(demoNight, '19:30')
    const check = halfHourCheck({
      night: demoNight,
      tour: built,
      sky: built.sky,
      chance: built.chance,
      objects,
      at,
      previousAt: null,
    })
    expect(check.lines.length).toBeGreaterThanOrEqual(
      new Set(built.stops.map((stop) => stop.stationId + stop.targetKey)).size,
    )
  })

  it('and everything else of a programme cross to a worker and back unchanged', () => {
    const built = build(demoNight, objects, 500)
    expect(isDeepStrictEqual(structuredClone(built), built)).toBe(true)
  })
})

describe('a night under thin cloud', () => {
  const night = underThinCloud(demoNight)
  const BRIGHT = ['moon', 'mercury', 'venus', 'mars', 'jupiter', 'saturn']
  const isBright = ({ key }: ShowObject): boolean => BRIGHT.includes(key)
  function thin(list: readonly ShowObject[], wishes: readonly WishMatter[] = [], asked = night) {
    const work = beginThinCloud({
      ...eveningOf(asked, list),
      seed: 3,
      wishes: wishes.map((wish, i) => ({ ...wish, id: String(i) })),
    })
    advance(work, 5_000)
    return finishThinCloud(work)
  }
  const shown = ({ stops }: ReturnType<typeof thin>) =>
    stops.flatMap(({ targetKey }) => objects.filter(({ key }) => key === targetKey))
  const pairs = objects.filter(({ kind }) => kind === 'double').slice(0, 12)
  const clusters = objects.filter(({ kind }) => kind === 'open-cluster').slice(0, 3)
  const few = [...objects.filter(({ kind }) => kind === 'moon' || kind === 'planet'), ...pairs, ...clusters]
  const whole = thin(few)

  it('shows the Moon and bright planets alone while any is up, and tells the one rule that two things for four telescopes cannot keep', () => {
    expect(whole.stops.length).toBeGreaterThan(1)
    expect(shown(whole).filter((object) => !isBright(object))).toEqual([])
    expect(whole.notes).toEqual([])
    const wrong = breachesOf(checked(night, whole.stops))
    expect(wrong.filter((said) => !said.startsWith('the row shows the same'))).toEqual([])
    expect(whole.notices.map(({ code }) => code)).toContain('rule.row-alike')
  })

  it('leaves the night itself as it is', () => {
    expect(demoNight.settings.thinCloud).toBe(0)
    const thick = { ...demoNight, settings: { ...demoNight.settings, thinCloud: 0.8 } }
    expect(underThinCloud(thick).settings.thinCloud).toBe(0.8)
  })

  it('takes bright pairs where neither Moon nor planet is up, says so, and keeps the host’s bars', () => {
    const list = [...pairs, ...clusters]
    const alone = thin(list)
    expect(alone.notes).toEqual([{ code: 'thin.pairs-alone' }])
    expect(shown(alone).length).toBeGreaterThan(1)
    expect(shown(alone).filter(({ kind, magnitude }) => kind !== 'double' || (magnitude ?? 9) > 3.5)).toEqual([])
    const [first] = shown(alone)
    const bar = { kind: 'bar' as const, stationId: null, aim: null, startsAt: null, endsAt: null, things: [] }
    const barred = thin(list, [{ ...bar, targetKey: first?.key ?? '' }])
    expect(shown(barred).map(({ key }) => key)).not.toContain(first?.key)
  })

  it('says in words that nothing is left', () => {
    const none = thin(clusters)
    expect(none).toEqual({ stops: [], notices: [], notes: [{ code: 'thin.nothing' }] })
  })

  it('says from when to when neither is up, and has pairs in that time alone', () => {
    const jupiter = objects.filter(({ key }) => key === 'jupiter')
    const late = thin([...jupiter, ...pairs], [], { ...night, opens: '20:00', closes: '23:30', visitors: [] })
    const [note] = late.notes
    expect(note).toMatchObject({ code: 'thin.without' })
    const jupiterAt = late.stops.find(({ targetKey }) => targetKey === 'jupiter')?.startsAt
    if (jupiterAt === undefined) throw new Error('Jupiter comes up that evening')
    const others = late.stops.filter(({ targetKey }) => targetKey !== 'jupiter')
    expect(others.length).toBeGreaterThan(0)
    expect(others.filter(({ endsAt }) => endsAt > jupiterAt)).toEqual([])
  })
})
