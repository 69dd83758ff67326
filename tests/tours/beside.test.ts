import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chanceAndView } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { bodyLook } from '../../server/sky/body.ts'
import { besideStations, halfHourSpans } from '../../server/tours/beside.ts'
import { type Aid, bareEyes, binoculars } from '../../server/tours/beside-aids.ts'
import type { BesideHalf, SightLine } from '../../server/tours/beside-lines.ts'
import { type Sight, sightsForBinoculars } from '../../server/tours/beside-sights.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { halfHourStarts, instantOf, nightHours, wallClock } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { isForTelescopes, type ShowObject } from '../../server/tours/target.ts'
import {
  ALL_KINDS,
  besideOf,
  EVERYTHING,
  halvesOf,
  linesOf,
  midsummer,
  momentsOf,
  NIGHTS,
  withBeside,
} from '../support/beside-night.ts'
import { geometryOf, seenPlace, subjectAt, treesDeg } from '../support/checker-sky.ts'
import { demoNight } from '../support/demo-night.ts'
import { generatedNight } from '../support/generated-nights.ts'
import '../support/property-runs.ts'

const cases = Object.entries(NIGHTS).map(([name, night]) => ({ name, night: withBeside(night) }))
/** The northern demo night among them. */
const mixed = cases[0]?.night ?? demoNight

const objectOf = (key: string): ShowObject => {
  const object = EVERYTHING.find((it) => it.key === key)
  if (object === undefined) throw new Error(`No object ${key}`)
  return object
}

/** NIGHTS=60 tries many more. */
const ANY_NIGHTS = Number(process.env.NIGHTS ?? 2)
const TRACK_DEG = 0.15 // five-minute steps against single instants
const radiusOf = ({ kind, fieldDeg }: ShowObject) =>
  kind === 'asterism' || kind === 'bare-eye' ? (fieldDeg ?? 0) / 2 : 0

/** All that is wrong with where and when a sight is offered; reckoned one star, one body at a time. */
function faultsOf(night: Night, half: BesideHalf, line: SightLine): string[] {
  const object = objectOf(line.targetKey)
  const said = `${line.targetKey} at ${wallClock(half.fromAt, night.site.zone)}`
  return momentsOf(half, line).flatMap((at) => {
    const isSunUp = bodyLook('sun', at, night.site).altitudeDeg >= -0.833
    if (isSunUp) return [`${said}: the Sun is up`]
    if (object.raDeg === null && object.body === null) return []
    const { altitudeDeg, azimuthDeg } = seenPlace(object, at, night)
    const lowest = altitudeDeg - Math.max(0, radiusOf(object))
    const faults = altitudeDeg < 10 - TRACK_DEG ? [`${said}: ${altitudeDeg.toFixed(2)} degrees high`] : []
    const isHidden = altitudeDeg < treesDeg(night, azimuthDeg) + 2 - 3 * TRACK_DEG
    const isCut = radiusOf(object) > 0 && lowest < treesDeg(night, azimuthDeg) - TRACK_DEG
    return [...faults, ...(isHidden ? [`${said}: behind trees`] : []), ...(isCut ? [`${said}: half behind trees`] : [])]
  })
}

const known = new Map<Night, readonly BesideHalf[]>()
/** What a night's stations show, reckoned once. */
function halvesAt(night: Night): readonly BesideHalf[] {
  const halves = known.get(night) ?? besideOf(night)
  known.set(night, halves)
  return halves
}

/** Chance through an aid at a single instant, for things that a telescope could show too. */
function chanceWith(aid: Aid, object: ShowObject, at: Date, night: Night): number {
  const subject: Subject =
    object.kind === 'double' && aid.view.powerX === 1
      ? { kind: 'star', magnitude: object.magnitude ?? 99, bv: object.bv, isRed: false }
      : subjectAt(object, at, night)
  return chanceAndView(subject, geometryOf(object, at, night), aid.view, aid.conditions).chance
}

/** The chances of all sights of a station at every minute, by single instants. */
function chancesAt(night: Night, id: string, aid: Aid): readonly { name: string; chance: number }[] {
  return linesOf(halvesOf(halvesAt(night), id), 'sight').flatMap(({ half, line }) => {
    const object = objectOf(line.targetKey)
    if (!isForTelescopes(object)) return []
    return momentsOf(half, line).map((at) => ({
      name: `${object.name} at ${wallClock(at, night.site.zone)}`,
      chance: chanceWith(aid, object, at, night),
    }))
  })
}

const STEP_CHANCE = 0.03 // in twilight the chance moves between two steps

function sightsFrom(asking: ReturnType<typeof sightsForBinoculars>): readonly Sight[] {
  let turn = asking.next()
  while (!turn.done) turn = asking.next()
  return turn.value
}

const sightsOf = (night: Night) => linesOf(halvesAt(night), 'sight')

describe('the half hours', () => {
  it.each(cases)('of every station of $name follow one on the other from the opening to the closing', ({ night }) => {
    const halves = halvesAt(night)
    const { opensAt, closesAt } = nightHours(night)
    expect(besideStations(night).map(({ kind }) => kind)).toEqual(ALL_KINDS)
    for (const { id, kind } of besideStations(night)) {
      const own = halvesOf(halves, id)
      expect(own.map(({ fromAt }) => fromAt)).toEqual(halfHourStarts(night).map((start) => instantOf(night, start)))
      expect(own[0]?.fromAt).toEqual(opensAt)
      expect(own.at(-1)?.toAt).toEqual(closesAt)
      for (const [i, half] of own.slice(1).entries()) expect(half.fromAt).toEqual(own[i]?.toAt)
      for (const half of own) {
        expect(half.kind).toBe(kind)
        expect(half.note === null, JSON.stringify(half)).toBe(half.lines.length > 0)
      }
    }
  })

  it('are none for a row of telescopes', () => {
    expect(besideOf(demoNight)).toEqual([])
  })

  it('come out the same from the same', () => {
    expect(besideOf(mixed)).toEqual(halvesAt(mixed))
  })
})

describe('what is pointed at and looked at', () => {
  it.each(cases)('in $name is in the open and the Sun is down, at every minute', ({ night }) => {
    const sights = sightsOf(night)
    expect(sights.length).toBeGreaterThan(8)
    expect(sights.flatMap(({ half, line }) => faultsOf(night, half, line))).toEqual([])
  })

  it(`is in the open on any of ${ANY_NIGHTS} nights`, { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (number) => {
        const night = withBeside(generatedNight(number), ['bare-eye', 'binoculars'])
        const faults = sightsOf(night).flatMap(({ half, line }) => faultsOf(night, half, line))
        expect(faults).toEqual([])
      }),
      { numRuns: ANY_NIGHTS },
    )
  })

  it.each(cases)('through binoculars in $name is seen by half of the newcomers and more', ({ night }) => {
    const aid = binoculars(night)
    expect(aid.view).toMatchObject({ powerX: 10, exitPupilMm: 5, trueFieldDeg: 6.5 })
    expect(aid.view.optics).toMatchObject({ apertureMm: 50, obstruction: 0 })
    const chances = chancesAt(night, 'binoculars', aid)
    expect(chances.length).toBeGreaterThan(100)
    expect(chances.filter(({ chance }) => chance < 0.5 - STEP_CHANCE)).toEqual([])
    for (const { line } of linesOf(halvesOf(halvesAt(night), 'binoculars'), 'sight'))
      expect(line.chance).toBeGreaterThanOrEqual(0.5)
  })

  it('through binoculars is nothing where only hard things are up, though some would see them', () => {
    const hard = EVERYTHING.filter(({ kind, magnitude }) => kind === 'galaxy' && (magnitude ?? 0) > 6)
    const night = withBeside(demoNight, ['binoculars'])
    const chances = linesOf(besideOf(night, { objects: hard }), 'sight').map(({ line }) => line.chance)
    expect(chances.filter((chance) => chance < 0.5)).toEqual([])
    const sky = eveningSky(night, hard)
    const few = sightsFrom(
      sightsForBinoculars({ night, sky, objects: hard }, { ...binoculars(night), leastChance: 0.2 }),
    )
    expect(few.length).toBeGreaterThan(chances.length)
    expect(besideOf(night, { objects: [] }).map(({ note }) => note?.code)).toEqual(
      Array(6).fill('beside.nothing-there'),
    )
  })

  it('through binoculars is no single star, and first what anyone sees', () => {
    for (const { night } of cases) {
      const halves = halvesOf(halvesAt(night), 'binoculars')
      for (const { line } of linesOf(halves, 'sight')) expect(objectOf(line.targetKey).kind).not.toBe('star')
      for (const { lines } of halves) {
        const easy = lines.map((line) => line.what === 'sight' && line.chance >= 0.95)
        expect(easy.toSorted((a, b) => Number(b) - Number(a))).toEqual(easy)
      }
    }
  })

  it.each(cases)('with bare eyes in $name is seen by three newcomers in five', ({ night }) => {
    const aid = bareEyes(night)
    expect([aid.view.powerX, aid.view.optics.apertureMm, aid.conditions.eyes]).toEqual([1, aid.conditions.pupilMm, 2])
    const chances = chancesAt(night, 'bare-eye', aid)
    expect(chances.length).toBeGreaterThan(100)
    expect(chances.filter(({ chance }) => chance < 0.6 - STEP_CHANCE)).toEqual([])
  })

  it('is two or three things for bare eyes and two for binoculars on a clear winter evening, and changes', () => {
    const halves = halvesAt(mixed)
    for (const [id, least] of [
      ['bare-eye', 3],
      ['binoculars', 2],
    ] as const) {
      const sets = halvesOf(halves, id).map(({ lines }) => lines.map((line) => line.what === 'sight' && line.targetKey))
      for (const set of sets) expect([least, set.length, new Set(set).size]).toEqual([least, least, least])
      for (const [i, set] of sets.slice(1).entries()) expect(set).not.toEqual(sets[i])
      expect(new Set(sets.flat()).size).toBeGreaterThanOrEqual(8)
    }
  })

  it('has its direction in sixteen points and fists, and what ends it by its name', () => {
    const lines = linesOf(halvesOf(halvesAt(mixed), 'bare-eye'), 'sight')
    for (const { line } of lines) {
      const place = seenPlace(objectOf(line.targetKey), line.fromAt, demoNight)
      expect(Math.abs(line.fists * 10 - place.altitudeDeg)).toBeLessThanOrEqual(2.5 + TRACK_DEG)
      const away = Math.abs(((line.point * 22.5 - place.azimuthDeg + 540) % 360) - 180)
      expect(away).toBeLessThanOrEqual(11.25 + 1)
    }
    const vega = lines.find(({ line }) => line.targetKey === 'hip91262')?.line
    expect(vega?.leave?.cause).toEqual({ code: 'skyline', name: 'gym roof' })
    const above = (minutes: number) => {
      const at = new Date((vega?.leave?.at.getTime() ?? 0) + minutes * 60_000)
      const { altitudeDeg, azimuthDeg } = seenPlace(objectOf('hip91262'), at, demoNight)
      return altitudeDeg - treesDeg(demoNight, azimuthDeg)
    }
    expect([above(-2) > 2, above(3) > 2]).toEqual([true, false])
  })

  it('is never the same at two guides at once', () => {
    const halves = besideOf(withBeside(demoNight, ['bare-eye', 'bare-eye']))
    const keysAt = (id: string) =>
      halvesOf(halves, id).map(({ lines }) => lines.flatMap((line) => (line.what === 'sight' ? [line.targetKey] : [])))
    const [first, second] = [keysAt('bare-eye'), keysAt('bare-eye-1')]
    expect(first).toHaveLength(6)
    for (const [i, keys] of first.entries()) expect(keys.filter((key) => second[i]?.includes(key))).toEqual([])
  })
})

describe('the Sun', () => {
  it('holds everything back until it has set, and the half hours say so', () => {
    const night = withBeside(midsummer, ['bare-eye', 'binoculars'])
    const halves = besideOf(night)
    const sunset = halves.filter(({ toAt }) => bodyLook('sun', toAt, night.site).altitudeDeg >= -0.833)
    expect(sunset.length).toBeGreaterThanOrEqual(2)
    for (const { lines, note } of sunset) expect([lines, note?.code]).toEqual([[], 'beside.sun'])
    expect(linesOf(halves, 'sight').length).toBeGreaterThan(2)
  })
})

describe('spans', () => {
  it('end with a short one where the hours do', () => {
    const spans = halfHourSpans(midsummer).map(({ fromAt, toAt }) => (toAt.getTime() - fromAt.getTime()) / 60_000)
    expect(spans).toEqual([30, 30, 30, 30, 30, 10])
  })
})
