import { featuresTonight, type LitFeature, type MoonFeature, RELIEF_SUN_DEG } from '../sight/moon-features.ts'
import { radians } from '../sky/angles.ts'
import { type MoonFace, moonFace, sunAltitudeAtFeature } from '../sky/moon-face.ts'
import { discOf, type Globe, limbOf, onGlobe, terminatorOf } from './field-globe.ts'
import { lightOnMoon, onMoon } from './field-moon-map.ts'
import { drawFeatures } from './field-moon-marks.ts'
import { drawnField, type FieldDrawn, type FieldPaper, fieldsTogether, isInCircle, type Matter } from './field-paper.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import { mistDots } from './thing-mist.ts'
import { MOON_RADIUS_KM, SEAS } from './thing-moon.ts'
import { dotsOf } from './thing-paper.ts'

/** What is drawn of the Moon: its face, its globe in the field, and what of it is named. */
export interface MoonScene {
  readonly face: MoonFace
  readonly globe: Globe
  readonly named: readonly LitFeature[]
  /** Every crater of the list over which the Sun is up. */
  readonly craters: readonly MoonFeature[]
}

const MOST_NAMED = 5
/** A field that is at least so many Moons wide has the Moon in its middle; a narrower one has the best feature there. */
const WHOLE_SHARE = 0.9

/** The Moon with the line between day and night at an instant, its seas where the Sun is up, and the features that show best. */
export function moonMatter(
  features: readonly MoonFeature[],
  at: Date,
  diameterArcmin: number,
  trueFieldDeg: number,
): Matter {
  const face = moonFace(at)
  const best = featuresTonight(face, features)
  const isWhole = 60 * trueFieldDeg >= WHOLE_SHARE * diameterArcmin
  const first = best.find(({ sunAltitudeDeg }) => sunAltitudeDeg < RELIEF_SUN_DEG) ?? best[0]
  const [eastArcmin, northArcmin] = isWhole || !first ? [0, 0] : offOf(face, first, diameterArcmin / 2)
  const globe: Globe = {
    eastArcmin: -eastArcmin,
    northArcmin: -northArcmin,
    radiusArcmin: diameterArcmin / 2,
    polarShare: 1,
    axisAngleDeg: face.axisAngleDeg,
    ...lightOnMoon(face),
  }
  const isInField = (feature: MoonFeature): boolean => {
    const [east, north] = offOf(face, feature, diameterArcmin / 2)
    return Math.hypot(east - eastArcmin, north - northArcmin) < 0.42 * 60 * trueFieldDeg
  }
  const scene = { face, globe, named: spread(face, best.filter(isInField)), craters: features.filter(isCrater(face)) }
  return {
    draw: (paper) => drawMoon(paper, scene),
    reach: [globe.radiusArcmin, globe.radiusArcmin],
    offArcmin: [0, 0],
    leastArcmin: diameterArcmin,
    tooSmall: null,
    inset: null,
    notes: [
      { code: 'field-drawing.note-moon' },
      ...(isWhole || !first ? [] : [{ code: 'field-drawing.note-moon-part', values: { name: first.name } }]),
    ],
  }
}

const CRATER_KINDS: readonly MoonFeature['kind'][] = ['crater', 'peak-crater', 'walled-plain']

/** A crater that is seen whole: on the near side and in sunlight. */
const isCrater =
  (face: MoonFace) =>
  ({ kind, longitudeDeg, latitudeDeg }: MoonFeature): boolean =>
    CRATER_KINDS.includes(kind) &&
    onMoon(face, longitudeDeg, latitudeDeg).towards > 0.15 &&
    sunAltitudeAtFeature(face, longitudeDeg, latitudeDeg) > 0

/** The best features that do not stand beside a better one. */
function spread(face: MoonFace, best: readonly LitFeature[]): readonly LitFeature[] {
  const kept: LitFeature[] = []
  const place = ({ longitudeDeg, latitudeDeg }: MoonFeature) => onMoon(face, longitudeDeg, latitudeDeg)
  const apart = (one: LitFeature, other: LitFeature): number =>
    Math.hypot(place(one).east - place(other).east, place(one).north - place(other).north)
  for (const feature of best) {
    if (kept.length < MOST_NAMED && kept.every((it) => apart(it, feature) > NEAR_RADII)) kept.push(feature)
  }
  return kept
}
const NEAR_RADII = 0.12

/** How far east and north of the Moon's middle a feature lies on the sky, in arcminutes. */
function offOf(face: MoonFace, { longitudeDeg, latitudeDeg }: MoonFeature, radiusArcmin: number): [number, number] {
  const { north, east } = onMoon(face, longitudeDeg, latitudeDeg)
  const [sine, cosine] = [Math.sin(radians(face.axisAngleDeg)), Math.cos(radians(face.axisAngleDeg))]
  return [radiusArcmin * (north * sine + east * cosine), radiusArcmin * (north * cosine - east * sine)]
}

function drawMoon(paper: FieldPaper, scene: MoonScene): FieldDrawn {
  const { globe } = scene
  const line = (points: readonly (readonly [number, number])[], more: Readonly<Record<string, string | number>>): Svg =>
    svgElement('polyline', { points: pointsText(points), fill: 'none', stroke: 'currentColor', ...more })
  const ground = drawnField(
    [
      dotsOf(seaDots(paper, scene), 2),
      line(limbOf(paper, globe, 'dark'), { 'stroke-width': 1.2, 'stroke-dasharray': '1 6', 'stroke-linecap': 'round' }),
      line(limbOf(paper, globe, 'lit'), { 'stroke-width': 2 }),
      line(terminatorOf(paper, globe), { 'stroke-width': 1.4 }),
    ],
    { discs: [discOf(paper, globe)] },
  )
  return fieldsTogether(ground, drawFeatures(paper, scene))
}

const PX2_PER_DOT = 13

/** Dots in the seas where the Sun is up, as dense on the paper in the middle of the disc as at its rim. */
function seaDots(paper: FieldPaper, { face, globe }: MoonScene): [number, number][] {
  const radiusPx = globe.radiusArcmin * paper.pxPerArcmin
  return SEAS.flatMap(([longitudeDeg, latitudeDeg, widthKm], i) => {
    const halfDeg = (widthKm / 2 / MOON_RADIUS_KM) * (180 / Math.PI)
    const middle = onMoon(face, longitudeDeg, latitudeDeg)
    const area = Math.PI * (radians(halfDeg) * radiusPx) ** 2 * Math.max(0, middle.towards)
    const round = { x: 0, y: 0, halfMajorPx: halfDeg, halfMinorPx: halfDeg, angleDeg: 0 }
    return mistDots(round, () => 1, area / PX2_PER_DOT, i + 1).flatMap(([dx, dy]): [number, number][] => {
      const [lon, lat] = [longitudeDeg + dx / Math.cos(radians(latitudeDeg)), latitudeDeg - dy]
      const { north, east, towards } = onMoon(face, lon, lat)
      if (towards <= 0.05 || sunAltitudeAtFeature(face, lon, lat) <= 1) return []
      const [x, y] = onGlobe(paper, globe, face.axisAngleDeg, north, east)
      return isInCircle(paper, x, y, 2) ? [[x, y]] : []
    })
  })
}
