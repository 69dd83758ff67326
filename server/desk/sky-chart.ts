import type { ConstellationStore } from '../../db/constellations.ts'
import type { ObjectStore } from '../../db/objects.ts'
import type { StarStore } from '../../db/stars.ts'
import type { ChartBody, ChartTarget, SkyChartSubject } from '../drawings/sky-chart.ts'
import { BODY_KEYS, type BodyLook, bodyLooks } from '../sky/body.ts'
import { constellationOf } from '../sky/constellation.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { apparentAltitudeDeg } from '../sky/refraction.ts'
import { firstShowings } from '../tours/first-showing.ts'
import { seenFrom } from '../tours/hops-frame.ts'
import type { Night } from '../tours/night.ts'
import { placeOf } from '../tours/site.ts'
import { type SkyStars, skyOver } from '../tours/sky-over.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tour } from '../tours/tour.ts'
import type { ObjectDesk } from './objects.ts'

/** All that the chart of the whole sky over a night's site is drawn from; without a programme it has no targets. */
export type SkyChartDesk = (nightId: string, tour: Tour | undefined, at: Date) => Omit<SkyChartSubject, 'idPrefix'>

interface Needs {
  readonly findNight: (id: string) => Night
  readonly objects: Pick<ObjectStore, 'stars'>
  /** The catalogue with the host's own things. */
  readonly looked: Pick<ObjectDesk, 'find' | 'show'>
  readonly stars: Pick<StarStore, 'ofHips'>
  readonly constellations: ConstellationStore
}

/** More stars than those as bright as this would crowd the paper. */
const FAINTEST_MAG = 5

/** The chart of the whole sky; the stars and figures are read once. */
export function skyChartDesk({ findNight, objects, looked, stars, constellations }: Needs): SkyChartDesk {
  let kept: SkyStars | undefined
  const skyStars = (): SkyStars => {
    kept ??= withFigures(objects.stars(FAINTEST_MAG), constellations, stars)
    return kept
  }

  return (nightId, tour, at) => {
    const night = findNight(nightId)
    const over = skyOver(night, at, skyStars())
    const { site } = night
    const looks = bodyLooks(BODY_KEYS, at, placeOf(site))
    const sun = looks.find(({ key }) => key === 'sun')
    const showings = tour === undefined ? [] : firstShowings(night, tour)
    const shown = showings.flatMap(({ targetKey }, index) => {
      const object = looked.show(targetKey)
      return object ? [{ object, number: index + 1 }] : []
    })
    const targets = shown.flatMap(({ object, number }) => targetOf(object, number, looks, at, night))
    return {
      ...over,
      stars: over.stars.filter(({ magnitude }) => magnitude <= FAINTEST_MAG),
      site,
      at,
      targets,
      targetConstellations: shown.flatMap(({ object }) => placeCode(object, looks)),
      bodies: looks.flatMap((look) => bodyOf(look, over.limitV, targets, looked)),
      sun: seen(sun ?? { altitudeDeg: -90, azimuthDeg: 0 }),
    }
  }
}

function withFigures(
  bright: SkyStars['stars'],
  constellations: ConstellationStore,
  stars: Pick<StarStore, 'ofHips'>,
): SkyStars {
  const lines = constellations.lines()
  const known = new Set(bright.map(({ hip }) => hip))
  const missing = new Set(lines.flatMap(({ hips }) => hips).filter((hip) => !known.has(hip)))
  return { lines, stars: [...bright, ...stars.ofHips([...missing])] }
}

const seen = ({ altitudeDeg, azimuthDeg }: Horizontal): Horizontal => ({
  altitudeDeg: apparentAltitudeDeg(altitudeDeg),
  azimuthDeg,
})

function targetOf(
  object: ShowObject,
  number: number,
  looks: readonly BodyLook[],
  at: Date,
  { site }: Night,
): readonly ChartTarget[] {
  const { name, body, raDeg, decDeg } = object
  const look = looks.find(({ key }) => key === body)
  if (look) return [{ number, name, body, ...seen(look) }]
  if (raDeg === null || decDeg === null) return []
  const [direction] = seenFrom([{ ...object, raDeg, decDeg }], at, placeOf(site))
  return direction ? [{ number, name, body: null, ...direction }] : []
}

function placeCode(object: ShowObject, looks: readonly BodyLook[]): readonly string[] {
  if (object.constellation !== null) return [object.constellation]
  const place = looks.find(({ key }) => key === object.body) ?? object
  return place.raDeg === null || place.decDeg === null ? [] : [constellationOf(place.raDeg, place.decDeg)]
}

function bodyOf(
  look: BodyLook,
  limitV: number,
  targets: readonly ChartTarget[],
  looked: Needs['looked'],
): readonly ChartBody[] {
  const { key: body, magnitude, litFraction } = look
  const isTarget = targets.some((target) => target.body === body)
  const direction = seen(look)
  if (body === 'sun' || direction.altitudeDeg <= 0 || !(isTarget || magnitude <= limitV)) return []
  return [{ body, name: looked.find(body).object.name, magnitude, litFraction, ...direction }]
}
