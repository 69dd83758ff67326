import type { LineAnswer } from '../../desk/desk.ts'
import { cycleAt, RECENTRE_POWER_X } from '../../tours/line.ts'
import type { Night } from '../../tours/night.ts'
import { USUAL_HABITS } from '../../tours/simulation-lines.ts'
import type { HalfHourLine, LineReport } from '../../tours/simulation-report.ts'
import type { Words } from '../../words/words.ts'
import { type LineStopText, lineStops, momentOf } from './line-stops.ts'
import { nightSheet } from './night-links.ts'
import type { ProgrammeNote } from './programme-notes.ts'
import type { Names } from './say.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

export interface LinePage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly made: string
  readonly notes: readonly ProgrammeNote[]
  /** What matters most, in whole sentences. */
  readonly lead: string
  readonly told: readonly string[]
  readonly stationsLabel: string
  readonly stations: readonly LineStationText[]
  readonly nothingText: string
  readonly halfHoursLabel: string
  readonly halfHours: readonly { readonly time: string; readonly text: string }[]
  readonly targetsLabel: string
  readonly targets: readonly { readonly name: string; readonly text: string }[]
  readonly howLabel: string
  readonly how: readonly string[]
}

interface LineStationText {
  readonly name: string
  readonly looks: string
  readonly stops: readonly LineStopText[]
}

interface LineSubject {
  readonly night: Night
  readonly line: LineAnswer
  readonly names: Names
  readonly notes: readonly ProgrammeNote[]
}

/** How long people wait and what they get to see, in plain words. */
export function linePage(viewer: Viewer, { night, line, names, notes }: LineSubject): LinePage {
  const { words } = viewer
  const { simulated } = line
  return {
    sheet: nightSheet(viewer, words.say('line.title-of', { title: night.title }), {
      night,
      hasTour: true,
      here: 'line',
    }),
    nightTitle: night.title,
    title: words.say('line.title'),
    made: words.say('line.version', { version: line.version }),
    notes,
    lead: waitText(words, simulated),
    told: toldTexts(words, night, line),
    stationsLabel: words.say('line.stations'),
    stations: simulated.looksByStation.map(({ stationId, looks }) => ({
      name: stationName(night, names, stationId),
      looks: words.say('line.looks', { count: Math.round(looks) }),
      stops: lineStops(words, night, line, stationId, names),
    })),
    nothingText: words.say('line.nothing-shown'),
    halfHoursLabel: words.say('line.half-hours'),
    halfHours: simulated.halfHours.map((row) => halfHourText(words, night, names, row)),
    targetsLabel: words.say('line.targets'),
    targets: simulated.looksByTarget.map(({ targetKey, looks }) => ({
      name: names.nameOf(targetKey),
      text: words.say('line.looks', { count: Math.round(looks) }),
    })),
    howLabel: words.say('line.how'),
    how: howTexts(words, night, line),
  }
}

/** Half are said to wait less than the minutes rounded up, one in twenty more than those rounded down. */
function waitText(words: Words, { waitMedianMin, wait95Min }: LineReport): string {
  if (waitMedianMin === null || wait95Min === null) return words.say('line.nobody')
  if (wait95Min < 1) return words.say('line.no-wait')
  const minutes = (count: number) => words.say('line.minutes', { count })
  const half = minutes(Math.max(1, Math.ceil(waitMedianMin)))
  return words.say('line.waits', { half, most: minutes(Math.floor(wait95Min)) })
}

function toldTexts(words: Words, { settings }: Night, { simulated, reckoned }: LineAnswer): string[] {
  const { visitors, sawAtLeast, sawNothingShare, gaveUp, looks, looksFrom, looksTo } = simulated
  const whole = (count: number) => words.number(Math.round(count))
  const share = (people: number) => (visitors === 0 ? 0 : Math.round((100 * people) / visitors))
  return [
    words.say('line.visitors', { count: Math.round(visitors) }),
    words.say('line.all-looks', { looks: whole(looks), from: whole(looksFrom), to: whole(looksTo) }),
    ...sawAtLeast.map(({ things, visitors: people }) =>
      words.say('line.saw', { count: things, people: whole(people), percent: share(people) }),
    ),
    words.say('line.saw-nothing', { count: Math.round(visitors * sawNothingShare) }),
    words.say('line.gave-up', { count: Math.round(gaveUp) }),
    ...(reckoned.looksInStay === null
      ? []
      : [words.say('line.in-stay', { minutes: settings.stayMin, looks: words.number(reckoned.looksInStay, 1) })]),
  ]
}

function halfHourText(words: Words, night: Night, names: Names, { fromSec, people, longest }: HalfHourLine) {
  const there = words.say('line.people', { count: Math.round(people) })
  const station = longest && stationName(night, names, longest.stationId)
  const line = longest && words.say('line.longest', { station: station ?? '', count: Math.round(longest.people) })
  return {
    time: words.time(momentOf(night, fromSec), night.site.zone),
    text: [there, line ?? words.say('line.no-line')].join(' '),
  }
}

function howTexts(words: Words, night: Night, { seed, simulated }: LineAnswer): string[] {
  const { adultPatienceSec, childPatienceSec, walkSec } = USUAL_HABITS
  const { cycleSec, stayMin, schoolClass } = night.settings
  return [
    words.say('line.how-played', { count: simulated.evenings, seed }),
    words.say('line.how-come', { minutes: stayMin }),
    words.say('line.how-choose', { seconds: walkSec }),
    words.say('line.how-give-up', { adults: adultPatienceSec / 60, children: childPatienceSec / 60 }),
    words.say('line.how-look', {
      seconds: cycleSec,
      child: cycleAt(cycleSec, 1, 'altaz-driven', 0) - cycleSec,
      hand: cycleAt(cycleSec, 0, 'altaz-hand', RECENTRE_POWER_X) - cycleSec,
    }),
    ...(schoolClass ? [words.say('line.how-class')] : []),
    words.say('line.how-close'),
    words.say('line.how-sure'),
  ]
}
