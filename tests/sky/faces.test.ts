import { describe, expect, it } from 'vitest'
import { wrap180 } from '../../server/sky/angles.ts'
import { bodyLook } from '../../server/sky/body.ts'
import { jupiterFace, jupiterMoons } from '../../server/sky/jupiter.ts'
import { moonFace, sunAltitudeAtFeature } from '../../server/sky/moon-face.ts'
import { saturnRing } from '../../server/sky/saturn.ts'

const HOUR_MS = 3_600_000

describe('Saturn', () => {
  it('shows its south face from 2025 to 2039, and so a negative tilt', () => {
    expect(saturnRing(new Date('2026-03-07T00:00:00Z')).tiltEarthDeg).toBeCloseTo(-4, 0)
    expect(saturnRing(new Date('2032-01-01T00:00:00Z')).tiltEarthDeg).toBeLessThan(-20)
    expect(saturnRing(new Date('2017-10-01T00:00:00Z')).tiltEarthDeg).toBeGreaterThan(26)
  })

  it('has a ring that is 2.27 times as wide as the globe and closes when it is edge on', () => {
    const at = new Date('2025-03-23T17:00:00Z')
    const ring = saturnRing(at)
    const globe = bodyLook('saturn', at, { latitudeDeg: 0, longitudeDeg: 0, heightM: 0 })
    expect(ring.majorArcsec / globe.diameterArcsec).toBeCloseTo(2.26, 1)
    expect(ring.minorArcsec).toBeLessThan(0.5)
  })
})

describe('Jupiter', () => {
  it('turns its belts once in 9 h 56 min and its equator once in 9 h 50.5 min', () => {
    const [from, to] = [new Date('2026-01-10T20:00:00Z'), new Date('2026-01-10T21:00:00Z')]
    const gained = (key: 'meridianIDeg' | 'meridianIIDeg') => wrap180(jupiterFace(to)[key] - jupiterFace(from)[key])
    expect(gained('meridianIDeg')).toBeCloseTo(36.58, 1)
    expect(gained('meridianIIDeg')).toBeCloseTo(36.26, 1)
  })

  it('is flattened by a fifteenth', () => {
    const { equatorialArcsec, polarArcsec } = jupiterFace(new Date('2026-01-10T20:00:00Z'))
    expect(1 - polarArcsec / equatorialArcsec).toBeCloseTo(0.065, 3)
  })

  it('never lets a moon be before the disc and hidden, and hides no moon far from disc and shadow', () => {
    for (let hour = 0; hour < 24 * 20; hour++) {
      for (const moon of jupiterMoons(new Date(Date.UTC(2026, 0, 1, hour)))) {
        const fromMiddle = Math.hypot(moon.xRadii, moon.yRadii)
        expect(moon.isInFront && moon.isHidden).toBe(false)
        if (moon.isInFront) expect(fromMiddle).toBeLessThan(1)
        if (moon.isHidden) expect(fromMiddle).toBeLessThan(6)
      }
    }
  })

  it('carries Io westward before the disc and back eastward behind it, once in 42.5 hours', () => {
    const samples = Array.from({ length: 425 }, (_, step) => new Date(Date.UTC(2026, 0, 2) + step * 0.1 * HOUR_MS))
    const ios = samples.map((at) => jupiterMoons(at)[0])
    const before = ios.filter((io) => io?.isInFront)
    expect(before.length * 0.1).toBeGreaterThan(1.8)
    expect(before.length * 0.1).toBeLessThan(2.6)
    expect((before.at(-1)?.xRadii ?? 0) - (before[0]?.xRadii ?? 0)).toBeGreaterThan(1)
    expect(ios.filter((io) => io?.isHidden).length * 0.1).toBeGreaterThan(1.8)
    expect(Math.max(...ios.map((io) => Math.abs(io?.xRadii ?? 0)))).toBeCloseTo(5.9, 1)
  })

  it('hides moons east of the disc in its shadow after opposition, and only behind the disc at opposition', () => {
    const hiddenFrom = (firstAt: number) =>
      Array.from({ length: 24 * 20 }, (_, hour) => jupiterMoons(new Date(firstAt + hour * HOUR_MS)))
        .flat()
        .filter((moon) => moon.isHidden)
    const beside = hiddenFrom(Date.UTC(2026, 2, 25)).filter((moon) => Math.abs(moon.xRadii) > 1.05)
    expect(beside.length).toBeGreaterThan(10)
    for (const moon of beside) expect(moon.xRadii).toBeLessThan(0)
    const atOpposition = hiddenFrom(Date.UTC(2026, 0, 8)).slice(0, 20)
    expect(atOpposition.length).toBeGreaterThan(5)
    for (const moon of atOpposition) expect(Math.abs(moon.xRadii)).toBeLessThan(1.2)
  })

  it('names the four moons from the innermost outward', () => {
    const names = jupiterMoons(new Date('2026-01-10T20:00:00Z')).map((moon) => moon.name)
    expect(names).toEqual(['Io', 'Europa', 'Ganymede', 'Callisto'])
  })
})

describe('the Moon', () => {
  it('has its colongitude at 0 near first quarter and at 90 near full, gaining half a degree an hour', () => {
    const quarter = moonFace(new Date('2026-02-24T12:28:00Z'))
    expect(Math.abs(wrap180(quarter.colongitudeDeg))).toBeLessThan(8)
    expect(quarter.litFraction).toBeCloseTo(0.5, 1)
    const full = moonFace(new Date('2026-03-03T11:38:00Z'))
    expect(Math.abs(full.colongitudeDeg - 90)).toBeLessThan(8)
    const later = moonFace(new Date(Date.parse('2026-03-03T11:38:00Z') + HOUR_MS))
    expect(later.colongitudeDeg - full.colongitudeDeg).toBeCloseTo(0.508, 1)
  })

  it('has the Sun on the horizon along its terminator and overhead at the subsolar point', () => {
    const face = moonFace(new Date('2026-02-24T12:28:00Z'))
    expect(sunAltitudeAtFeature(face, -face.colongitudeDeg, 0)).toBeCloseTo(0, 6)
    expect(sunAltitudeAtFeature(face, 180 - face.colongitudeDeg, 0)).toBeCloseTo(0, 6)
    expect(sunAltitudeAtFeature(face, 90 - face.colongitudeDeg, face.sunLatitudeDeg)).toBeCloseTo(90, 4)
  })

  it('is lit from the west in the evening and from the east in the morning', () => {
    expect(moonFace(new Date('2026-02-22T18:00:00Z')).brightLimbAngleDeg).toBeGreaterThan(180)
    expect(moonFace(new Date('2026-03-12T05:00:00Z')).brightLimbAngleDeg).toBeLessThan(180)
  })

  it('never librates by more than 8.2 degrees, nor leans its axis by more than 25', () => {
    for (let day = 0; day < 400; day += 3) {
      const face = moonFace(new Date(Date.UTC(2026, 0, 1 + day)))
      expect(Math.abs(face.librationLongitudeDeg)).toBeLessThan(8.2)
      expect(Math.abs(face.librationLatitudeDeg)).toBeLessThan(7)
      expect(Math.abs(face.sunLatitudeDeg)).toBeLessThan(1.6)
      expect(Math.abs(face.axisAngleDeg)).toBeLessThan(25.5)
    }
  })
})
