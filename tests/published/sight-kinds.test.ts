import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { lordArcsec } from '../../server/sight/double.ts'
import { coreMargin } from '../../server/sight/galaxy.ts'
import { giantsBrighter } from '../../server/sight/globular.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { lookOf } from '../../server/sight/look.ts'
import { cdFromMag } from '../../server/sight/luminance.ts'
import { featuresTonight, type MoonFeature } from '../../server/sight/moon-features.ts'
import { uniformMargin } from '../../server/sight/patch.ts'
import { dispersionArcsec } from '../../server/sight/planet.ts'
import { glareMag, moonsOfJupiter, titan } from '../../server/sight/planet-moons.ts'
import type { GalaxySubject, Subject } from '../../server/sight/subject.ts'
import { magFromLux, pointLux } from '../../server/sight/threshold.ts'
import { bodyLook } from '../../server/sky/body.ts'
import { jupiterMoons } from '../../server/sky/jupiter.ts'
import { moonFace, sunAltitudeAtFeature } from '../../server/sky/moon-face.ts'
import { saturnRing } from '../../server/sky/saturn.ts'
import { subjectOf } from '../../server/tours/subject.ts'
import { OUTREACH } from '../support/evenings.ts'
import { viewAt } from '../support/sight-data.ts'

// Meeus, Astronomical Algorithms, 2nd ed. (1998), examples 53.a to 53.c; dynamical time was 59 s ahead of clocks then.
describe('the Sun over Copernicus in April 1992', () => {
  const copernicus: MoonFeature = {
    name: 'Copernicus',
    official: 'Copernicus',
    kind: 'peak-crater',
    longitudeDeg: -20,
    latitudeDeg: 9.7,
    diameterKm: 96,
    bestFromDeg: 1,
    bestToDeg: 15,
    see: 'A crater.',
  }
  const dynamical = (day: number) => new Date(Date.UTC(1992, 3, 1) + (day - 1) * 86_400_000 - 59_000)
  const sunDeg = (day: number) => featuresTonight(moonFace(dynamical(day)), [copernicus])[0]?.sunAltitudeDeg

  it('stands 2.318 degrees high on the 12th at 0 hours', () => {
    expect(Math.abs((sunDeg(12) ?? 0) - 2.318)).toBeLessThan(0.02)
  })

  it('rises there on the 11th at 0.8069 of the day', () => {
    let [down, up] = [11.5, 12]
    while (up - down > 1e-5) {
      const day = (down + up) / 2
      if (sunAltitudeAtFeature(moonFace(dynamical(day)), -20, 9.7) < 0) down = day
      else up = day
    }
    expect(Math.abs(up - 11.8069)).toBeLessThan(0.002) // 0.02 degrees of the Sun's height
  })

  it('leaves out what lies on the night side and on the far side', () => {
    const at = moonFace(dynamical(12))
    expect(featuresTonight(at, [{ ...copernicus, longitudeDeg: -40 }])).toEqual([])
    expect(featuresTonight(at, [{ ...copernicus, longitudeDeg: 155 }])).toEqual([])
  })
})

// Filippenko, PASP 94 (1982), 715: sea level, 15 C; 500 to 600 nm, roughly the eye's band.
describe('the air spreads colours', () => {
  it.each([
    [10, 2.3],
    [15, 1.5],
    [20, 1.1],
    [25, 0.88],
    [30, 0.71],
    [40, 0.49],
    [50, 0.35],
    [70, 0.15],
  ])('at %i degrees by %f arcseconds', (altitudeDeg, arcsec) => {
    expect(Math.abs(dispersionArcsec(altitudeDeg) - arcsec)).toBeLessThan(0.035)
  })
})

// Lord 1994, nomogram for unequal binaries: formula from a transcription, figures reckoned from it.
describe('unequal pairs', () => {
  it.each([
    [0, 0.71],
    [1, 1.04],
    [2, 1.58],
    [4, 3.65],
  ])('of a difference of %f in 200 mm with a third obstructed in fair seeing part at %f arcseconds', (step, arcsec) => {
    expect(Math.abs(lordArcsec(200, step, 5.5) - arcsec)).toBeLessThan(0.01)
  })
})

// Brightnesses at mean opposition: Astronomical Almanac, from memory. Distances are those of the example in Meeus ch. 41 and 44.
describe('moons of planets', () => {
  it('has the brightness of Jupiter’s four at opposition: 5.0, 5.3, 4.6, 5.6', () => {
    const mags = moonsOfJupiter({ magnitude: -2.7, diameterArcsec: 47 }, jupiterMoons(new Date('2026-01-10T00:00:00Z')))
    expect(mags.map(({ magnitude }) => Math.round(10 * magnitude) / 10)).toEqual([5, 5.3, 4.6, 5.6])
  })

  // Titan is -1.28 at 1 au from Sun and Earth, from memory; at an opposition the Sun is 1 au farther from it than we are.
  it.each(['2026-10-04', '2028-10-30', '2032-12-24'])('takes the light of the ring off Saturn for Titan: %s', (day) => {
    const at = new Date(`${day}T00:00:00Z`)
    const look = bodyLook('saturn', at, { latitudeDeg: 47, longitudeDeg: 8, heightM: 0 })
    const { majorArcsec: ringMajorArcsec, minorArcsec: ringMinorArcsec } = saturnRing(at)
    const byDistance = -1.28 + 5 * Math.log10(look.distanceAu * (look.distanceAu + 1))
    expect(Math.abs(titan({ ...look, ringMajorArcsec, ringMinorArcsec }).magnitude - byDistance)).toBeLessThan(0.05)
    expect(byDistance).toBeGreaterThan(8)
    expect(byDistance).toBeLessThan(8.6)
  })

  it('puts three shadows on Jupiter at once on 24 January 2015 from 6:28 to 6:52', () => {
    const shadows = (time: string) =>
      jupiterMoons(new Date(`2015-01-24T${time}:00Z`)).flatMap(({ name, castsShadow }) => (castsShadow ? [name] : []))
    expect(shadows('06:40')).toEqual(['Io', 'Europa', 'Callisto']) // widely announced; from memory
    expect(shadows('06:15')).toEqual(['Io', 'Callisto'])
    expect(shadows('07:10')).toEqual(['Europa', 'Callisto'])
  })

  // Holladay, J. Opt. Soc. Am. 12 (1926), 271; Stiles, Proc. R. Soc. B 104 (1929), 322: veil = 10 E / angle^2; V = 0 is 2.54e-6 lux (Crumey 1.3).
  it.each([3, 5, 10, 20, 50, 100, 200])('veils a star %f apparent arcminutes from Jupiter in 100 mm', (arcmin) => {
    const luxInEye = 2.54e-6 * 10 ** (0.4 * 2.5) * (100 / 6) ** 2 * 0.75
    const veilCd = (10 * luxInEye) / (arcmin / 60) ** 2
    const skyCd = 1.4e-4 // 19.5 mag through 100 mm at 50 times
    const lost = magFromLux(pointLux(skyCd)) - magFromLux(pointLux(skyCd + veilCd))
    expect(Math.abs(glareMag(arcmin) - lost)).toBeLessThan(0.35)
  })
})

// Giants of M13: 12 brighter than 12.9 and about 350 above the branch at 14.9, from memory of its colour-magnitude diagrams.
describe('a globular cluster', () => {
  it('has a handful of giants a magnitude under the tip of M13 and hundreds at its branch', () => {
    const m13 = { kind: 'globular', magnitude: 5.78, halfLightArcmin: 1.69, branchMag: 14.9 } as const
    expect(giantsBrighter(m13, 11.9)).toBeLessThan(4)
    expect(giantsBrighter(m13, 12.9)).toBeGreaterThan(8)
    expect(giantsBrighter(m13, 12.9)).toBeLessThan(25)
    expect(giantsBrighter(m13, 14.9)).toBeGreaterThan(250)
    expect(giantsBrighter(m13, 14.9)).toBeLessThan(500)
  })
})

// Field factor 2, no extinction, 50 times, 19.5 mag per square arcsecond, from the values of the list itself.
describe('the Andromeda Galaxy in a town', () => {
  const night = { ...DEFAULT_CONDITIONS, extinctionMag: 0, noviceFactor: 2, pupilMm: 6.5 }
  const bodies = {
    looks: {},
    rings: saturnRing(new Date(0)),
    faces: { moon: moonFace(new Date(0)), jupiterMoons: [] },
  }
  const subjectNamed = (key: string): Subject => {
    const object = OUTREACH.find((each) => each.key === key)
    const subject = object && subjectOf(object, bodies)
    if (!subject) throw new Error(key)
    return subject
  }
  const m31 = subjectNamed('m31') as GalaxySubject
  const core = m31.core
  if (!core) throw new Error('no core')
  const inView = (apertureMm: number) => {
    const view = { ...viewAt(apertureMm, 50), trueFieldDeg: 3 }
    const limit = limitOf(view, night)(cdFromMag(19.5), 90)
    const margin = (subject: Subject) => lookOf(subject, view)(limit).lightMag
    return { limit, margin }
  }

  it.each([100, 200])('shows its core in %i mm as surely as the Ring Nebula', (apertureMm) => {
    const { limit, margin } = inView(apertureMm)
    expect(coreMargin(core, limit)).toBeGreaterThanOrEqual(margin(subjectNamed('m57')))
    expect(margin(m31)).toBe(coreMargin(core, limit))
  })

  it.each([100, 200])('shows the rest of it in %i mm between the Dumbbell and M82', (apertureMm) => {
    const { margin } = inView(apertureMm)
    const rest = margin({ ...m31, core: null })
    expect(rest).toBeLessThan(margin(subjectNamed('m27')))
    expect(rest).toBeGreaterThan(margin(subjectNamed('m82')))
  })

  it('needs the bright shell of a planetary, not its halo: M57 would be lost at 3.8 arcminutes', () => {
    const { limit, margin } = inView(100)
    expect(margin(subjectNamed('m57'))).toBeGreaterThan(uniformMargin(limit, 8.8, (Math.PI / 4) * 3.8 ** 2) + 0.8)
  })
})
