import { describe, expect, it } from 'vitest'
import { eveningChance } from '../../server/tours/evening-chance.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import { objectTonight } from '../../server/tours/object-tonight.ts'
import { demoNight } from '../support/demo-night.ts'
import { builtOn, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const objects = FOR_TELESCOPES
const evening = eveningOf(demoNight)
const { sky, chance } = evening
const tour = builtOn(evening, 20_000)

/** Every so many things are looked at where nothing is said of one; EVERY=1 looks at the whole list. */
const EVERY = Number(process.env.EVERY ?? 25)

function tonight(key: string, at: Date | null = null) {
  const object = objects.find((one) => one.key === key)
  if (!object) throw new Error(`No object ${key}`)
  return objectTonight({ night: demoNight, objects, sky, chance, tour, object, at })
}
const codes = (key: string) => tonight(key).verdict.map(({ code }) => code)

describe('why an object is on the programme or not', () => {
  it('says where and when it is shown, with the reasons of its stop', () => {
    const stop = tour.stops.find(({ targetKey }) => targetKey === 'saturn')
    const [first, ...reasons] = tonight('saturn').verdict
    expect(first).toMatchObject({ code: 'why.on-tour', values: { from: '18:00' } })
    expect(reasons.slice(0, stop?.reasons.length).map(({ code }) => code)).toEqual(
      stop?.reasons.map(({ code }) => code),
    )
  })

  it('says what never rises, what stays too low, and what comes out for a moment only', () => {
    expect(codes('ngc5139')).toEqual(['why.set'])
    expect(codes('m51')).toEqual(['why.low'])
    expect(codes('m44')).toEqual(['why.brief'])
  })

  it('says what drowns a thing that is well placed but too faint', () => {
    const faint = tonight('m33')
    expect(faint.verdict[0]?.code).toBe('why.faint')
    expect(faint.verdict.slice(1).map(({ code }) => code)).toContain('sight.town-sky')
    expect(Math.max(...faint.stations.map(({ sighting }) => sighting.chance))).toBeLessThan(0.5)
  })

  it('says what is shown instead of a good thing, and in what that is better', () => {
    const onList = new Set([...tour.stops, ...tour.spares].map(({ targetKey }) => targetKey))
    const off = ['m103', 'm52', 'm34', 'm15'].filter((key) => !onList.has(key))
    expect(off.length).toBeGreaterThan(1)
    const shown = tour.stops.map(({ targetKey }) => objects.find(({ key }) => key === targetKey)?.name)
    for (const key of off) {
      const [first, second] = tonight(key).verdict
      expect(first?.code, key).toBe('why.outdone')
      expect(shown).toContain(first?.values?.name)
      expect(second?.code).toMatch(/^why\.more-(delight|chance|view|calm)$/)
    }
  })

  it('says of no well-placed bright thing that it is seldom seen, however little it is worth', () => {
    for (const key of ['hip91262', 'hip24608', 'neptune']) {
      const { verdict, stations } = tonight(key)
      const good = stations.flatMap(({ quarters }) =>
        quarters.filter(({ cause, chance: share }) => cause === null && share >= 0.9),
      )
      expect(good.length, key).toBeGreaterThan(3)
      expect(verdict[0]?.code, key).toMatch(/^why\.(outdone|spare|left-over|on-tour)$/)
    }
  })

  it('says that it is faint or seldom seen only where no telescope shows it to half of the newcomers for a quarter hour', () => {
    for (const { key } of objects.filter((_, i) => i % EVERY === 0)) {
      const { verdict, stations } = tonight(key)
      if (!/^why\.(faint|seldom)$/.test(verdict[0]?.code ?? '')) continue
      const isLong = stations.some(({ quarters }) =>
        quarters.some((quarter, k) =>
          [quarter, quarters[k + 1]].every((one) => one?.cause === null && one.chance >= 0.55),
        ),
      )
      expect(isLong && verdict[0]?.code === 'why.faint', key).toBe(false)
      expect(verdict.map(({ code }) => code)).not.toContain('sight.bright')
    }
  })

  it('says that a row without a telescope shows nothing', () => {
    const stations = demoNight.stations.map((station) => ({ ...station, telescope: null }))
    const bare = { ...demoNight, stations }
    const moon = objects.find(({ key }) => key === 'moon')
    if (!moon) throw new Error('No Moon')
    const none = eveningChance(sky, bare, objects)
    const input = { night: bare, objects, sky, chance: none, tour, object: moon, at: null }
    expect(objectTonight({ ...input, tour: { stops: [], spares: [] } }).verdict).toEqual([{ code: 'why.no-telescope' }])
  })
})

describe('the walk of an object', () => {
  it('is clear exactly where its spans say so', () => {
    const { walk, clear } = tonight('m42')
    expect(clear.length).toBeGreaterThan(0)
    for (const { at, isClear } of walk) {
      const inside = clear.some(({ fromAt, untilAt }) => fromAt <= at && at <= untilAt)
      const nearEdge = clear.some(({ fromAt, untilAt }) =>
        [fromAt, untilAt].some((edge) => Math.abs(edge.getTime() - at.getTime()) <= 60_000),
      )
      expect(inside === isClear || nearEdge, at.toISOString()).toBe(true)
    }
  })

  it('names the tree that a thing comes clear of', () => {
    const { clear } = tonight('m42')
    expect(clear[0]?.before).toMatchObject({ code: 'skyline' })
    expect(clear[0]?.before?.name).toBeTruthy()
  })

  it('covers the public hours in five-minute steps', () => {
    const { opensAt, closesAt } = nightHours(demoNight)
    const { walk } = tonight('m45')
    expect(walk[0]?.at).toEqual(opensAt)
    expect(walk.at(-1)?.at).toEqual(closesAt)
    expect(walk).toHaveLength(37)
  })
})

describe('the sky behind an object', () => {
  it('is taken at the moment asked for, kept to the public hours', () => {
    const at = instantOf(demoNight, '19:00')
    expect(tonight('m45', at).at).toEqual(at)
    expect(tonight('m45', new Date(0)).at).toEqual(nightHours(demoNight).opensAt)
    const { sky: parts } = tonight('m45', at)
    expect(parts?.totalCd).toBeCloseTo((parts?.siteCd ?? 0) + (parts?.moonCd ?? 0) + (parts?.twilightCd ?? 0), 12)
    expect(tonight('ngc5139', at).sky).toBeNull()
  })
})
