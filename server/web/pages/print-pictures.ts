import type { ChartDesk } from '../../desk/charts.ts'
import type { EveningAnswer } from '../../desk/desk.ts'
import { type FieldLayout, type FieldView, fieldDrawing, starsForField } from '../../drawings/field.ts'
import { finderChart } from '../../drawings/finder-chart.ts'
import { WIDTH as FINDER_WIDTH } from '../../drawings/finder-chart-scale.ts'
import { noWayText } from '../../drawings/finder-chart-words.ts'
import { eveningScore, SCORE_WIDTH_MM } from '../../drawings/score.ts'
import { skyChart } from '../../drawings/sky-chart.ts'
import { skylineWalk } from '../../drawings/skyline-walk.ts'
import type { Svg } from '../../drawings/svg.ts'
import type { Night } from '../../tours/night.ts'
import { placeOf } from '../../tours/site.ts'
import { ocularsOf } from '../../tours/telescope.ts'
import { middleOf, type Setup, type Stop, type Tour } from '../../tours/tour.ts'
import type { Walk } from '../../tours/walks.ts'
import type { Words } from '../../words/words.ts'
import type { Paper } from './paper.ts'
import { causeText, type Names, remarkText, targetName } from './say.ts'

/** A picture with the sentences that stand below it. */
export interface Picture {
  readonly svg: Svg
  readonly notes: readonly string[]
}

/** A picture of which it is known how large it is printed. */
export interface SizedPicture extends Picture {
  readonly widthMm: number
  readonly heightMm: number
  /** What the signs in it mean, where it does not say so itself. */
  readonly legend: string | null
}

/** What is pointed at, and where it stands in the row. */
export type FoundStop = Pick<Stop, 'targetKey' | 'stationId'>

/** The pictures of a night, each drawn when a piece asks for it; null where there is nothing to draw. */
export interface PrintPictures {
  /** What is seen in the middle of a stop through its tubes and eyepieces: 84 mm wide for one tube, 170 mm for two. */
  readonly field: (stop: Stop, layout: FieldLayout) => SizedPicture | null
  /**
   * The way to the target of a stop by hand from a bright star, as the sky stands then and the station's finder shows it:
   * 84 mm wide and so high, or as high as it needs.
   * Where no way leads there, a sentence says why.
   */
  readonly finder: (stop: FoundStop, at: Date, heightMm: number | null) => SizedPicture | string | null
  /** Where a target walks over trees and roofs in the public hours, 180 mm wide. */
  readonly walk: (targetKey: string) => Picture | null
  /** The whole sky with the targets numbered in the order of their first showing, 180 mm wide. */
  readonly sky: (at: Date) => Picture
  /** The row as one score, landscape: one picture a sheet. */
  readonly score: () => readonly Picture[]
}

/** What they are drawn from. */
interface PictureSources {
  readonly night: Night
  readonly tour: Tour
  readonly evening: EveningAnswer
  readonly names: Names
  readonly charts: Pick<ChartDesk, 'sky' | 'finder' | 'starsIn'>
  readonly walks: readonly Walk[]
  readonly paper: Paper
}

export const printPictures = (words: Words, sources: PictureSources): PrintPictures => ({
  field: (stop, layout) => fieldPicture(words, sources, stop, layout),
  finder: (stop, at, heightMm) => finderPicture(words, sources, { stop, at, heightMm }),
  walk: (key) => walkPicture(words, sources, key),
  sky: (at) => skyPicture(words, sources, at),
  score: () => scorePictures(words, sources),
})

/** Begins the names inside a drawing, so that several share a page. */
const idOf = (kind: string, key: string, at: Date): string => `${kind}-${key.replace(/[^\w-]/g, '-')}-${at.getTime()}`

/** Fields and finder charts have five units to a millimetre of print. */
const PX_PER_MM = 5

function fieldPicture(
  words: Words,
  { night, names, charts }: PictureSources,
  stop: Stop,
  layout: FieldLayout,
): SizedPicture | null {
  const thing = names.show(stop.targetKey)
  const views = stop.setups.flatMap((setup) => viewOf(words, night, stop, setup))
  const widestDeg = Math.max(...views.map(({ setup }) => setup.trueFieldDeg))
  if (thing === undefined || views.length === 0) return null
  const drawn = fieldDrawing(
    {
      thing,
      stars: charts.starsIn(starsForField(thing, widestDeg)),
      views,
      at: middleOf(stop),
      zone: night.site.zone,
      place: placeOf(night.site),
      layout,
      idPrefix: idOf(`field-${layout}-${stop.stationId}`, stop.targetKey, stop.startsAt),
    },
    words,
  )
  return drawn && { ...drawn, widthMm: drawn.widthPx / PX_PER_MM, heightMm: drawn.heightPx / PX_PER_MM }
}

/** The tube and eyepiece of a setup; nothing where the telescope no longer has them. */
function viewOf(words: Words, { stations }: Night, { stationId }: Stop, setup: Setup): FieldView[] {
  const telescope = stations.find(({ id }) => id === stationId)?.telescope
  const tube = telescope?.tubes.find(({ id }) => id === setup.tubeId)
  const ocular = telescope && ocularsOf(telescope).find(({ id }) => id === setup.eyepieceId)
  if (!telescope || !tube || !ocular) return []
  return [{ tube, setup, eyepieceName: remarkText(words, ocular.label), telescopeName: telescope.name }]
}

interface FinderAsked {
  readonly stop: FoundStop
  readonly at: Date
  readonly heightMm: number | null
}

function finderPicture(
  words: Words,
  { night, tour, charts }: PictureSources,
  { stop: { targetKey: key, stationId }, at, heightMm }: FinderAsked,
): SizedPicture | string {
  const finder = night.stations.find(({ id }) => id === stationId)?.telescope?.finder
  const fieldsDeg = tour.stops.flatMap(({ targetKey, setups }) =>
    targetKey === key ? setups.map(({ trueFieldDeg }) => trueFieldDeg) : [],
  )
  const mainFieldDeg = fieldsDeg.length === 0 ? null : Math.max(...fieldsDeg)
  const subject = {
    ...charts.finder({ key, site: night.site, at, mainFieldDeg, finder }),
    idPrefix: idOf(`finder-${stationId}`, key, at),
  }
  const { way } = subject
  if (way.kind === 'none') return noWayText(way.cause, at, night.site.zone, words)
  const { svg, notes, heightPx } = finderChart(
    { ...subject, way, heightPx: heightMm === null ? null : heightMm * PX_PER_MM },
    words,
  )
  return { svg, notes, widthMm: FINDER_WIDTH / PX_PER_MM, heightMm: heightPx / PX_PER_MM, legend: null }
}

function walkPicture(words: Words, { night, names, walks }: PictureSources, key: string): Picture | null {
  const found = walks.find(({ targetKey }) => targetKey === key)
  const drawn = found && skylineWalk({ ...found, site: night.site, name: names.nameOf(key) }, words)
  return drawn ? { svg: drawn.svg, notes: [] } : null
}

const skyPicture = (words: Words, { night, tour, charts }: PictureSources, at: Date): Picture =>
  skyChart({ ...charts.sky(night.id, tour, at), idPrefix: `sky-${at.getTime()}` }, words)

function scorePictures(words: Words, { night, tour, evening, names, paper }: PictureSources): readonly Picture[] {
  const { sheets } = eveningScore(
    {
      night,
      stops: tour.stops,
      evening,
      nameOf: ({ targetKey, aim }) => targetName(words, names, targetKey, aim),
      causeOf: (cause) => causeText(words, cause),
      widthMm: SCORE_WIDTH_MM[paper],
    },
    words,
  )
  return sheets.map(({ svg }) => ({ svg, notes: [] }))
}
