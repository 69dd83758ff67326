import type { Horizontal } from '../sky/horizontal.ts'
import type { Site } from '../tours/site.ts'
import type { SkyOver } from '../tours/sky-over.ts'
import type { Words } from '../words/words.ts'
import { bodyMark, type ChartBody, type DrawnBody, drawnBody, SUN_PX, sunMark } from './sky-chart-bodies.ts'
import { brightnessScale, chartTitle, fistBar, holdLines, tooBright } from './sky-chart-frame.ts'
import { compassNames, compassWords, ground, type RimName, rimNames, rimWords } from './sky-chart-ground.ts'
import {
  type ChartTarget,
  type DrawnTarget,
  markTargets,
  overhead,
  overheadBox,
  overheadMark,
  targetMark,
  wordsBeside,
} from './sky-chart-marks.ts'
import { figureNames, labelText } from './sky-chart-names.ts'
import { chartDescription, chartNotes, targetsOver } from './sky-chart-notes.ts'
import { FOOT_Y, RADIUS, type Skyline, type SkyPaper, skylineOf, skyPaper, WIDTH } from './sky-chart-paper.ts'
import { boxAround, type ChartLabel, crowdOf } from './sky-chart-places.ts'
import { type DrawnStar, type DrawnStroke, drawnStars, drawnStrokes, starDots, strokeLines } from './sky-chart-stars.ts'
import { type Svg, svgPicture } from './svg.ts'

export type { ChartBody } from './sky-chart-bodies.ts'
export type { ChartTarget } from './sky-chart-marks.ts'

/** All that a chart of the whole sky is drawn from; directions are as seen, the air's lift in them. */
export interface SkyChartSubject extends SkyOver {
  readonly site: Pick<Site, 'horizon' | 'zone' | 'latitudeDeg'>
  readonly at: Date
  /** Tonight's targets by their numbers, below the horizon too. */
  readonly targets: readonly ChartTarget[]
  /** Codes of the constellations in which targets stand: these are named before others. */
  readonly targetConstellations: readonly string[]
  /** The Moon and the planets that bare eyes see or that are targets, above the horizon. */
  readonly bodies: readonly ChartBody[]
  /** Below the horizon at night. */
  readonly sun: Horizontal
  /** What the names inside the drawing begin with, so that two drawings share a page. */
  readonly idPrefix: string
}

export interface SkyChart extends SkyPaper {
  readonly svg: Svg
  /** Sentences to stand below the chart. */
  readonly notes: readonly string[]
  /** From overhead to the level horizon. */
  readonly radiusPx: number
  readonly stars: readonly DrawnStar[]
  readonly strokes: readonly DrawnStroke[]
  readonly bodies: readonly DrawnBody[]
  readonly targets: readonly DrawnTarget[]
  /** All words on the sky, those of the targets among them. */
  readonly labels: readonly ChartLabel[]
  /** What stands along the horizon. */
  readonly rimNames: readonly RimName[]
}

/**
 * The whole sky at one hour as it is held overhead, to be printed 180 mm wide: equal angles from overhead are equal lengths,
 * south is at the bottom and east on the left, or north and east on the right south of the equator.
 */
export function skyChart(subject: SkyChartSubject, words: Words): SkyChart {
  const paper = skyPaper(subject.site.latitudeDeg)
  const skyline = skylineOf(subject.site.horizon)
  const over = targetsOver(subject)
  const drawn = drawnSky(subject, skyline, paper, words)
  const names = rimNames(skyline)
  const title = words.say('sky-chart.title', {
    date: words.dayAndMonth(subject.at, subject.site.zone),
    time: words.time(subject.at, subject.site.zone),
  })
  const hold = holdLines(words)
  const svg = svgPicture(
    {
      width: WIDTH,
      height: FOOT_Y + hold.heightPx,
      title,
      description: chartDescription(subject, over, paper.facingDeg, words),
    },
    ...skySvg(subject, drawn, skyline, paper, words),
    ...rimWords(names, paper, subject.idPrefix),
    ...compassWords(compassNames(words), paper, subject.idPrefix),
    chartTitle(title),
    ...brightnessScale(words),
    ...fistBar(words),
    ...hold.svg,
  )
  return { svg, notes: chartNotes(subject, over, words), radiusPx: RADIUS, ...paper, ...drawn, rimNames: names }
}

type DrawnSky = Pick<SkyChart, 'stars' | 'strokes' | 'bodies' | 'targets' | 'labels'>

/** Where everything on the sky stands on paper; targets have their words first, figures last. */
function drawnSky(subject: SkyChartSubject, skyline: Skyline, paper: SkyPaper, words: Words): DrawnSky {
  const stars = drawnStars(subject.stars, paper)
  const strokes = drawnStrokes(subject.strokes, stars, paper)
  const bodies = subject.bodies.map((body) => drawnBody(body, subject.sun, paper))
  const crowd = crowdOf(stars, strokes)
  crowd.taken.push(overheadBox())
  const sun = sunPlace(subject, paper)
  if (sun !== null) crowd.taken.push(boxAround([sun.x, sun.y], SUN_PX, SUN_PX))
  const marked = markTargets(targetsOver(subject).up, bodies, paper, crowd, words)
  const labels = [
    ...marked.labels,
    ...[sun === null ? null : wordsBeside(words.say('sky-chart.sun'), 'body', sun, crowd)].flatMap((it) => it ?? []),
    ...[overhead(crowd, words)].flatMap((it) => it ?? []),
    ...figureNames({ ...subject, drawn: stars, skyline }, paper, crowd, words),
  ]
  return { stars, strokes, bodies, targets: marked.targets, labels }
}

function sunPlace({ sun }: SkyChartSubject, { place }: SkyPaper) {
  if (sun.altitudeDeg <= 0) return null
  const [x, y] = place(sun.altitudeDeg, sun.azimuthDeg)
  return { x, y, radiusPx: SUN_PX }
}

/** Stars under the ground, marks and words over it. */
function skySvg(subject: SkyChartSubject, drawn: DrawnSky, skyline: Skyline, paper: SkyPaper, words: Words): Svg[] {
  const sun = sunPlace(subject, paper)
  const litOf = (drawnOne: DrawnBody): number =>
    subject.bodies.find(({ body }) => body === drawnOne.body)?.litFraction ?? 1
  return [
    ...strokeLines(drawn.strokes),
    ...starDots(drawn.stars),
    ...ground(skyline, paper),
    ...(sun === null ? [] : [sunMark([sun.x, sun.y])]),
    ...drawn.bodies.flatMap((body) => bodyMark(body, litOf(body))),
    ...drawn.targets.flatMap(targetMark),
    overheadMark(),
    ...(drawn.stars.length === 0 ? tooBright(words) : []),
    ...drawn.labels.map(labelText),
  ]
}
