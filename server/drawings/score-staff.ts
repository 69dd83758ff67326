import type { Station } from '../tours/night.ts'
import type { Stop } from '../tours/tour.ts'
import type { Words } from '../words/words.ts'
import type { ScoreSubject } from './score.ts'
import { labelOf, saidOf } from './score-said.ts'
import type { TimeScale } from './score-time.ts'
import { type Box, boxAt, lineMm, type Text, textIn, textOnBar, widthMm } from './word-box.ts'
import { type Placed, placeAll, placeNear, type Room, type Side, type Wanted } from './word-lanes.ts'

/** A stop as it is drawn, in millimetres; `leadX` is the line from the bar to a name that does not stand on it. */
export interface DrawnNote {
  readonly stop: Stop
  readonly x1: number
  readonly x2: number
  readonly name: Box
  readonly leadX: number | null
  /** The two powers of a mount that gives two looks. */
  readonly looks: Box | null
  readonly looksLeadX: number | null
}

/** The last moment for a target, with its word where there is room. */
export interface DrawnLeave {
  readonly at: Date
  readonly x: number
  readonly word: Box | null
}

/** One station; y is measured down from the top of its five lines, which are `bodyMm` high. */
export interface DrawnStaff {
  readonly stationId: string
  readonly label: readonly Box[]
  /** What is said on a staff without stops. */
  readonly words: Box | null
  readonly notes: readonly DrawnNote[]
  readonly leaves: readonly DrawnLeave[]
  readonly bodyMm: number
  readonly topMm: number
  readonly footMm: number
}

interface StaffPaper {
  readonly subject: ScoreSubject
  readonly words: Words
  readonly scale: TimeScale
  /** Letters of names that do not stand on their bars. */
  readonly hungPt: number
}

const LEAST_BODY_MM = 10
/** Between the bar and the words on it, and from the bar to the first lane beneath. */
export const ON_BAR_MM = 1.4
const UNDER_BAR_MM = 2.4
const AFTER_STEM_MM = 1.2
const MOST_HUNG_MM = 120

/** The staff of one station with all that stands on it. */
export function staffOf(station: Station, paper: StaffPaper): DrawnStaff {
  const { subject, scale } = paper
  const stops = subject.stops
    .filter(
      ({ stationId, startsAt, endsAt }) => stationId === station.id && startsAt < scale.toAt && endsAt > scale.fromAt,
    )
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const spans = stops.map((stop, i) => spanOf(stop, stops[i + 1], paper))
  const onBars = spans.flatMap(({ onBar }) => (onBar === null ? [] : [onBar.lines.length * lineMm(onBar.sizePt)]))
  const bodyMm = Math.max(LEAST_BODY_MM, ...onBars.map((highMm) => highMm + 2 * ON_BAR_MM))
  const hung = hangAll(spans, paper)
  const notes = spans.map((span) => noteOf(span, bodyMm, hung, paper))
  const leaves = leavesOf(spans, bodyMm, hung, paper)
  const words = stops.length > 0 ? null : saidOf(station, bodyMm, scale, paper.words)
  const label = labelOf(station, bodyMm, paper.words)
  const boxes = [...label, ...notes.flatMap(({ name, looks }) => (looks ? [name, looks] : [name]))]
  boxes.push(...leaves.flatMap(({ word }) => word ?? []))
  const topMm = Math.min(0, ...boxes.map(({ y1 }) => y1))
  const footMm = Math.max(bodyMm + UNDER_BAR_MM, ...boxes.map(({ y2 }) => y2))
  return { stationId: station.id, label, words, notes, leaves, bodyMm, topMm, footMm }
}

interface Span {
  readonly stop: Stop
  readonly nextAt: Date | null
  readonly x1: number
  readonly x2: number
  readonly nameText: string
  readonly onBar: Text | null
  readonly looks: string | null
}

function spanOf(stop: Stop, next: Stop | undefined, { subject, scale, words }: StaffPaper): Span {
  const inside = (at: Date): number => Math.min(scale.rightMm, Math.max(scale.leftMm, scale.xOf(at)))
  const [x1, x2] = [inside(stop.startsAt), inside(stop.endsAt)]
  const beyond = next ? inside(next.startsAt) : scale.rightMm
  const room = (to: number): number => to - x1 - 2 * AFTER_STEM_MM
  const nameText = subject.nameOf(stop)
  const [low, high] = stop.setups
    .map(({ powerX }) => powerX)
    .sort((a, b) => a - b)
    .map((powerX) => words.number(powerX))
  const looks = low === undefined || high === undefined ? null : words.say('score.two-powers', { low, high })
  const onBar = textOnBar(nameText, room(x2), room(beyond))
  return { stop, nextAt: next?.startsAt ?? null, x1, x2, nameText, onBar, looks }
}

interface Hung {
  readonly names: ReadonlyMap<Span, HungText>
  readonly looks: ReadonlyMap<Span, HungText>
  readonly taken: readonly Placed[]
}

interface HungText {
  readonly text: Text
  readonly place: Placed
}

const NAME_SIDES: readonly Side[] = ['below', 'above']
const UNDER: readonly Side[] = ['below']

const roomOf = ({ scale, subject }: StaffPaper): Room => ({ leftMm: scale.leftMm, rightMm: subject.widthMm })

const wantedOf = (text: Text, x: number, sides: readonly Side[]): Wanted => ({
  x,
  widthMm: widthMm(text),
  lines: text.lines.length,
  sides,
})

/** Gives every name that does not stand on its bar, and every pair of powers, a place above or beneath the staff. */
function hangAll(spans: readonly Span[], paper: StaffPaper): Hung {
  const asked = spans.flatMap((span) => {
    const leadX = span.x1 + Math.min(0.6, (span.x2 - span.x1) / 2)
    const name = textIn(span.nameText, MOST_HUNG_MM, paper.hungPt, true)
    const looks = span.looks === null ? null : textIn(span.looks, MOST_HUNG_MM, paper.hungPt)
    return [
      ...(span.onBar ? [] : [{ span, isName: true, text: name, wanted: wantedOf(name, leadX, NAME_SIDES) }]),
      ...(looks ? [{ span, isName: false, text: looks, wanted: wantedOf(looks, leadX, UNDER) }] : []),
    ]
  })
  const taken = placeAll(
    asked.map(({ wanted }) => wanted),
    roomOf(paper),
  )
  const [names, looks] = [new Map<Span, HungText>(), new Map<Span, HungText>()]
  for (const [i, { span, isName, text }] of asked.entries()) {
    const place = taken[i]
    if (place) (isName ? names : looks).set(span, { text, place })
  }
  return { names, looks, taken }
}

function boxIn({ text, place }: HungText, bodyMm: number): Box {
  const pitch = lineMm(text.sizePt)
  const y1 =
    place.side === 'below'
      ? bodyMm + UNDER_BAR_MM + (place.lane - 1) * pitch
      : -ON_BAR_MM - (place.lane + place.lines - 1) * pitch
  return boxAt(text, place.x1, y1)
}

function noteOf(span: Span, bodyMm: number, hung: Hung, { hungPt }: StaffPaper): DrawnNote {
  const { stop, x1, x2, onBar } = span
  const [name, looks] = [hung.names.get(span), hung.looks.get(span)]
  const text = onBar ?? name?.text ?? { lines: [span.nameText], sizePt: hungPt, isBold: true }
  const highMm = text.lines.length * lineMm(text.sizePt)
  const standing = boxAt(text, x1 + AFTER_STEM_MM, bodyMm - ON_BAR_MM - highMm)
  return {
    stop,
    x1,
    x2,
    name: name ? boxIn(name, bodyMm) : standing,
    leadX: name?.place.x ?? null,
    looks: looks ? boxIn(looks, bodyMm) : null,
    looksLeadX: looks && (looks.place.lane > 1 || looks.place.x2 < looks.place.x) ? looks.place.x : null,
  }
}

/** Where a target's time runs out before the next begins: not where the doors close upon it. */
function leavesOf(spans: readonly Span[], bodyMm: number, hung: Hung, paper: StaffPaper): DrawnLeave[] {
  const { subject, scale, words, hungPt } = paper
  const taken = [...hung.taken]
  return spans.flatMap(({ stop: { leaveBy, endsAt }, nextAt }): DrawnLeave[] => {
    if (leaveBy === null || leaveBy.cause.code === 'closing' || leaveBy.at > scale.toAt) return []
    const isAfterNext = nextAt !== null && leaveBy.at > nextAt && leaveBy.at.getTime() - endsAt.getTime() > SOON_MS
    if (isAfterNext || leaveBy.at < scale.fromAt) return []
    const x = scale.xOf(leaveBy.at)
    const time = words.time(leaveBy.at, subject.night.site.zone)
    const said = words.say('score.leave', { cause: subject.causeOf(leaveBy.cause), time })
    const text = textIn(said, MOST_HUNG_MM, hungPt)
    const place = placeNear(wantedOf(text, x, UNDER), taken, roomOf(paper))
    if (place) taken.push(place)
    return [{ at: leaveBy.at, x, word: place ? boxIn({ text, place }, bodyMm) : null }]
  })
}

const SOON_MS = 15 * 60_000
