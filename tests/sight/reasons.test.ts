import { describe, expect, it } from 'vitest'
import { chanceWord, sighting } from '../../server/sight/sighting.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

const M101: Subject = { kind: 'galaxy', magnitude: 7.86, majorArcmin: 28.8, minorArcmin: 26.9 } // RC3, from memory

type Asked = Partial<{
  view: ReturnType<typeof viewAt>
  geometry: typeof moonNight
  conditions: ReturnType<typeof conditionsWith>
}>

const reasons = (
  subject: Subject,
  { view = viewAt(102, 40), geometry = darkNight, conditions = conditionsWith({}) }: Asked,
) => sighting(subject, geometry, view, conditions).reasons
const codes = (subject: Subject, asked: Asked) => reasons(subject, asked).map(({ code }) => code)
const values = (subject: Subject, asked: Asked, code: string) =>
  reasons(subject, asked).find((reason) => reason.code === code)?.values

describe('why it is seen or not', () => {
  it('names the Moon before the town under a country sky, and says how much it adds', () => {
    const asked = {
      geometry: { ...moonNight, altitudeDeg: 30 },
      conditions: conditionsWith({ zenithMag: 21.3, extinctionMag: 0.25 }),
    }
    const at45 = { ...asked, geometry: { ...moonNight, altitudeDeg: 45 } }
    expect(codes(things.m51, asked)).toContain('sight.moonlight')
    expect(codes(things.m51, asked).indexOf('sight.moonlight')).toBeLessThan(
      codes(things.m51, asked).indexOf('sight.air'),
    )
    expect(values(things.m51, at45, 'sight.moonlight')).toEqual({ mag: 0.9 })
    expect(codes(things.m51, { conditions: asked.conditions })).not.toContain('sight.moonlight')
  })

  it('names the town, its glow, the air, thin cloud, a lamp and the twilight when they cost something', () => {
    expect(codes(things.m51, { conditions: conditionsWith({ zenithMag: 18.5 }) })).toContain('sight.town-sky')
    expect(codes(things.m51, { conditions: conditionsWith({ zenithMag: 21.7 }) })).not.toContain('sight.town-sky')
    const south = { ...darkNight, altitudeDeg: 20 }
    const glow = [{ fromDeg: 150, toDeg: 210, brighterMag: 2 }]
    expect(codes(things.m51, { geometry: south, conditions: conditionsWith({ glow }) })).toContain('sight.glow')
    const north = { ...south, azimuthDeg: 0 }
    expect(codes(things.m51, { geometry: north, conditions: conditionsWith({ glow }) })).not.toContain('sight.glow')
    expect(values(things.m51, { geometry: south }, 'sight.air')).toEqual({ mag: 0.8, altitude: 20 })
    expect(codes(things.m51, {})).not.toContain('sight.air')
    expect(codes(things.m51, { conditions: conditionsWith({ thinCloud: 0.3 }) })).toContain('sight.thin-cloud')
    expect(values(things.m51, { conditions: conditionsWith({ extinctionMag: 0.55 }) }, 'sight.haze')).toEqual({
      mag: 0.3,
    })
    expect(codes(things.m51, { conditions: conditionsWith({ extinctionMag: 0.35 }) })).not.toContain('sight.haze')
    const lamp = conditionsWith({ streetLight: true, zenithMag: 21.5 })
    expect(codes(things.m57, { conditions: lamp, view: viewAt(102, 90) })).toContain('sight.street-light')
    const dusk = codes(things.m51, { geometry: { ...south, sunAltitudeDeg: -9 } })
    expect(dusk.indexOf('sight.twilight')).toBeLessThan(dusk.indexOf('sight.air'))
    expect(dusk).toContain('sight.twilight')
  })

  it('lays the loss of M51 and M101 in a town on the town and not on the half Moon', () => {
    const asked = { geometry: { ...moonNight, altitudeDeg: 45 }, conditions: conditionsWith({ zenithMag: 19.5 }) }
    for (const galaxy of [things.m51, M101]) {
      const [seen, told] = [sighting(galaxy, asked.geometry, viewAt(102, 40), asked.conditions), codes(galaxy, asked)]
      expect(seen.chance).toBeLessThan(0.2)
      expect(told).toContain('sight.town-sky')
      expect(told.slice(0, told.indexOf('sight.town-sky'))).not.toContain('sight.moonlight')
      const cost = (code: string) => seen.reasons.find((reason) => reason.code === code)?.magnitudes ?? 0
      expect(cost('sight.town-sky')).toBeGreaterThan(4 * cost('sight.moonlight'))
    }
    const country = { ...asked, conditions: conditionsWith({ zenithMag: 21.3 }) }
    const told = codes(things.m51, country)
    expect(told).toContain('sight.moonlight')
    expect(told.slice(0, told.indexOf('sight.moonlight'))).not.toContain('sight.town-sky')
  })

  it('says what keeps a pair together: power, air or tube', () => {
    expect(values(things.castor, { view: viewAt(150, 20) }, 'sight.low-power')).toEqual({ power: 20, needs: 43 })
    const murk = { view: viewAt(150, 150), conditions: conditionsWith({ seeingArcsec: 7 }) }
    expect(codes(things.castor, murk)).toContain('sight.pair-seeing')
    const tight = { ...things.castor, separationArcsec: 1.5 }
    const still = { view: viewAt(60, 400), conditions: conditionsWith({ seeingArcsec: 0.5 }) }
    expect(codes(tight, still)).toContain('sight.pair-too-close')
    expect(codes({ ...things.castor, magnitudes: [2, 12] }, { view: viewAt(102, 90) })).toContain(
      'sight.companion-faint',
    )
  })

  it('says when the field is too small and how wide it should be', () => {
    expect(values(things.pleiades, { view: viewAt(250, 60) }, 'sight.field-small')).toEqual({ field: 1, needs: 2.6 })
    expect(codes(things.pleiades, { view: viewAt(72, 16) })).not.toContain('sight.field-small')
    expect(codes(things.halfMoon, { view: viewAt(250, 200) })).not.toContain('sight.field-small')
  })

  it('counts a cluster, tells a resolved globular from a smudge, a flat Moon from a shadowed one', () => {
    expect(Number(values(things.pleiades, { view: viewAt(72, 16) }, 'sight.stars')?.count)).toBeGreaterThan(50)
    expect(codes(things.m13, { view: viewAt(300, 130) })).toContain('sight.partly-resolved')
    expect(codes(things.m13, { view: viewAt(60, 30) })).toContain('sight.smudge')
    expect(codes(things.fullMoon, {})).toContain('sight.flat-moon')
    expect(codes(things.halfMoon, {})).toContain('sight.long-shadows')
  })

  it('leads with its brightness where light is to spare, and with faintness where it is not', () => {
    expect(codes(things.saturn, { view: viewAt(150, 150) })[0]).toBe('sight.bright')
    expect(codes(things.m51, { view: viewAt(60, 30) })[0]).toBe('sight.too-faint')
  })

  it('says of a planet that the air is unsteady, the power low, the ring thin', () => {
    const low = { geometry: { ...darkNight, altitudeDeg: 15 } }
    expect(codes(things.saturn, low)).toContain('sight.unsteady')
    expect(codes(things.saturn, { view: viewAt(102, 20) })).toContain('sight.low-power')
    expect(codes({ ...things.saturn, ringMinorArcsec: 1 }, {})).toContain('sight.ring-thin')
  })

  it('tells of the people who have just looked at the Moon', () => {
    const moon = { altitudeDeg: 45, phaseAngleDeg: 0, distanceKm: 384_400, separationDeg: 90 }
    const asked = { geometry: { ...darkNight, moon }, conditions: conditionsWith({ moonGazerShare: 0.3 }) }
    expect(values(things.m57, asked, 'sight.moon-gazers')).toEqual({ percent: 30, mag: 1.2 })
  })

  it('says of what is down only that it is down', () => {
    const seen = sighting(things.m13, { ...darkNight, altitudeDeg: -4 }, viewAt(102, 40), conditionsWith({}))
    expect(seen).toMatchObject({ chance: 0, view: 0, limitMag: null, word: 'not-tonight' })
    expect(seen.reasons).toEqual([{ code: 'sight.below-horizon', values: { altitude: -4 } }])
  })
})

describe('the chance in a word', () => {
  it.each([
    [0.95, 'anyone'],
    [0.94, 'most'],
    [0.8, 'most'],
    [0.5, 'with-help'],
    [0.2, 'few'],
    [0.19, 'not-tonight'],
  ] as const)('is for %f: %s', (chance, word) => {
    expect(chanceWord(chance)).toBe(word)
  })
})
