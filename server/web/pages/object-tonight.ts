import { skylineWalk } from '../../drawings/skyline-walk.ts'
import type { Svg } from '../../drawings/svg.ts'
import { WALK_NARROW, WALK_PAPER } from '../../drawings/walk-scale.ts'
import type { SkyParts } from '../../sight/sky-brightness.ts'
import type { ClearSpan } from '../../tours/clear-spans.ts'
import type { Night } from '../../tours/night.ts'
import type { ObjectTonight, StationTonight } from '../../tours/object-tonight.ts'
import type { Cause } from '../../tours/tour.ts'
import { kindText } from './card-face.ts'
import { nightSheet } from './night-links.ts'
import { causeText, chanceText, type Names, remarkText, targetName } from './say.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { setupText } from './stop-line.ts'

/** One telescope and what it shows of the object at its best. */
interface StationView {
  readonly station: string
  readonly name: string
  readonly isOn: boolean
  readonly best: string
  /** What to put in; two where the mount gives a second look. */
  readonly setups: readonly string[]
  readonly share: string
  readonly view: string
  readonly reasons: readonly string[]
  /** By half hour: so many newcomers of a hundred, or what is in the way. */
  readonly cells: readonly { readonly text: string; readonly isBarred: boolean }[]
}

export interface ObjectTonightPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly kind: string
  readonly about: { readonly href: string; readonly text: string }
  readonly verdictLabel: string
  readonly verdict: readonly string[]
  readonly clearLabel: string
  readonly clear: readonly string[]
  /** Its walk, and the same drawn for a narrow screen; null when it stays below the horizon. */
  readonly drawing: { readonly wide: Svg; readonly narrow: Svg } | null
  readonly drawingNote: string
  readonly tableLabel: string
  readonly tableNote: string
  readonly times: readonly string[]
  readonly stationLabel: string
  readonly stations: readonly StationView[]
  readonly noStations: string
  readonly whyLabel: string
  readonly skyTitle: string
  readonly skyLines: readonly string[]
}

interface ObjectTonightSubject {
  readonly night: Night
  readonly tonight: ObjectTonight
  readonly hasTour: boolean
  readonly names: Names
}

/** One object on one night: why it is on or off the programme, its walk over the trees, and what every telescope shows of it. */
export function objectTonightPage(viewer: Viewer, subject: ObjectTonightSubject): ObjectTonightPage {
  const { words } = viewer
  const { night, tonight, names } = subject
  const name = names.nameOf(tonight.targetKey)
  const object = names.show(tonight.targetKey)
  return {
    sheet: nightSheet(viewer, words.say('page.object-of', { name, title: night.title }), {
      night,
      hasTour: subject.hasTour,
      here: null,
    }),
    nightTitle: night.title,
    title: name,
    kind: object && object.kind !== 'moon' ? kindText(words, object) : '',
    about: { href: `/objects/${tonight.targetKey}`, text: words.say('object.link-about', { name }) },
    verdictLabel: words.say('page.object-verdict'),
    verdict: tonight.verdict.map((remark) => remarkText(words, remark)),
    clearLabel: words.say('page.object-clear'),
    clear: clearLines(viewer, night, tonight.clear),
    drawing: drawingOf(viewer, subject, name),
    drawingNote: words.say('page.object-drawing'),
    tableLabel: words.say('page.object-chances'),
    tableNote: words.say('page.object-chances-note'),
    times: halfHours(tonight).map((at) => words.time(at, night.site.zone)),
    stationLabel: words.say('page.object-telescope'),
    stations: tonight.stations.map((station) => stationView(viewer, subject, station)),
    noStations: words.say('page.object-no-telescope'),
    ...whyOf(viewer, night, tonight),
  }
}

function drawingOf({ words }: Viewer, { night, tonight }: ObjectTonightSubject, name: string) {
  const walk = { walk: tonight.walk, clear: tonight.clear, site: night.site, name }
  const [wide, narrow] = [WALK_PAPER, WALK_NARROW].map((paper) => skylineWalk(walk, words, paper)?.svg)
  return wide && narrow ? { wide, narrow } : null
}

const SURE = 0.985
const MOST_SAID = 0.99 // nobody promises a hundred in a hundred
const HALF_HOUR_MS = 1_800_000
const isHalfHour = (at: Date): boolean => at.getTime() % HALF_HOUR_MS === 0

const halfHours = ({ stations }: ObjectTonight): Date[] =>
  (stations[0]?.quarters ?? []).map(({ at }) => at).filter(isHalfHour)

function clearLines({ words }: Viewer, night: Night, spans: readonly ClearSpan[]): string[] {
  if (spans.length === 0) return [words.say('page.object-never-clear')]
  const { zone } = night.site
  return spans.map(({ fromAt, untilAt, before, after }) => {
    const values = { from: words.time(fromAt, zone), to: words.time(untilAt, zone) }
    const said = [words.say(after ? 'page.object-clear-until' : 'page.object-clear-end', values)]
    if (before) said.push(words.say('page.object-before', { cause: barredText(words, before) }))
    if (after) said.push(words.say('page.object-after', { cause: causeText(words, after) }))
    return said.join(' ')
  })
}

function stationView(
  { words }: Viewer,
  { night, names, tonight }: ObjectTonightSubject,
  at: StationTonight,
): StationView {
  const station = night.stations.find(({ id }) => id === at.stationId)
  const { chance, chanceLow, chanceHigh, view, reasons } = at.sighting
  const hundred = (share: number) => words.number(100 * share)
  return {
    station: station?.name ?? at.stationId,
    name: targetName(words, names, tonight.targetKey, at.aim),
    isOn: at.stops.length > 0,
    best: words.say('page.object-best', { time: words.time(at.bestAt, night.site.zone) }),
    setups: [at.setup, at.beside].flatMap((setup) => (setup === null ? [] : setupText(words, station, setup))),
    share: words.say(chanceLow >= SURE ? 'page.object-share-sure' : 'page.object-share', {
      word: chanceText(words, chance),
      chance: hundred(chance),
      low: hundred(Math.min(MOST_SAID, chanceLow)),
      high: hundred(chanceHigh),
    }),
    view: words.say(`page.view-${viewWord(view)}`),
    reasons: reasons.map((reason) => remarkText(words, reason)),
    cells: at.quarters
      .filter((quarter) => isHalfHour(quarter.at))
      .map(({ chance: share, cause }) => ({
        text: cause === null ? hundred(share) : barredText(words, cause),
        isBarred: cause !== null,
      })),
  }
}

/** What is in the way; below the horizon a thing is not up, whether it rises or sets. */
const barredText = (words: Viewer['words'], cause: Cause): string =>
  cause.code === 'set' ? words.say('page.object-not-up') : causeText(words, cause)

/** The step of the view that is nearly reached: there 0.3, shape 0.6, detail 0.85, a gasp 1. */
function viewWord(view: number): 'edge' | 'there' | 'shape' | 'detail' | 'gasp' {
  if (view >= 0.93) return 'gasp'
  if (view >= 0.75) return 'detail'
  if (view >= 0.48) return 'shape'
  return view >= 0.28 ? 'there' : 'edge'
}

function whyOf({ words }: Viewer, night: Night, { at, sky }: ObjectTonight) {
  const time = words.time(at, night.site.zone)
  return {
    whyLabel: words.say('page.object-why', { time }),
    skyTitle:
      sky === null
        ? words.say('page.object-down', { time })
        : words.say('page.object-sky', { mag: words.number(sky.magPerArcsec2, 1) }),
    skyLines: sky === null ? [] : skyLines(words, sky),
  }
}

/** Each light's share of the sky there. */
const skyLines = (words: Viewer['words'], { siteCd, moonCd, twilightCd, totalCd }: SkyParts): string[] =>
  (
    [
      ['site', siteCd],
      ['moon', moonCd],
      ['twilight', twilightCd],
    ] as const
  ).map(([part, cd]) => words.say(`page.sky-${part}`, { percent: words.number((100 * cd) / totalCd) }))
