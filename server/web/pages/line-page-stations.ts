import type { BesideHalf } from '../../tours/beside-lines.ts'
import { aboutMin, type LineNow, type Queue, type StationLine } from '../../tours/line-now.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { besideNow } from './beside.ts'
import { type ActGround, type Timing, timingOf } from './line-page-acts.ts'
import { type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** One station as the line helper sees it. */
export interface LineStation {
  readonly id: string
  readonly name: string
  readonly now: string
  readonly until: string | null
  readonly next: string | null
  readonly trouble: string | null
  /** How long the line is; null where there is none. */
  readonly wait: string | null
  /** When to close the line, or that this is the moment. */
  readonly close: string | null
  readonly isTimeToClose: boolean
  readonly closeWhy: string | null
  /** How fast the line moves, and whether to time it again. */
  readonly pace: string | null
  readonly due: string | null
  readonly isDue: boolean
  readonly timing: Timing | null
}

interface Subject {
  readonly night: Night
  readonly line: LineNow
  readonly beside: readonly BesideHalf[]
  readonly names: Names
}

/** What a station shows, how long people wait there, and when to close its line. */
export function lineStation(
  { words, mayAct }: Viewer,
  subject: Subject,
  station: StationLine,
  ground: ActGround,
): LineStation {
  const { night, names } = subject
  const { stationId, queue, trouble } = station
  return {
    id: stationId,
    name: stationName(night, names, stationId),
    now: nowText(words, subject, station),
    until: untilText(words, subject, station),
    next: nextText(words, subject, station),
    trouble: trouble === null ? null : words.say('field.row-trouble', { what: words.say(`page.trouble-${trouble}`) }),
    wait: queue && waitText(words, queue),
    ...closing(words, subject, queue),
    ...paceOf(words, subject, station),
    timing: mayAct && queue !== null ? timingOf(ground, stationId) : null,
  }
}

function nowText(words: Words, { names, beside, line }: Subject, { stationId, showing, isOut }: StationLine): string {
  if (isOut) return words.say('queue.out')
  if (showing) return targetName(words, names, showing.targetKey, showing.aim)
  return besideNow(words, names, beside, stationId, line.at) ?? words.say('field.nothing')
}

const untilText = (words: Words, { night }: Subject, { showing, untilAt, isOut }: StationLine): string | null =>
  showing === null || untilAt === null || isOut
    ? null
    : words.say('page.until-time', { time: words.time(untilAt, night.site.zone) })

function nextText(words: Words, { night, names }: Subject, { next, isOut }: StationLine): string | null {
  if (next === null || isOut) return null
  const name = targetName(words, names, next.targetKey, next.aim)
  return words.say('queue.next', { time: words.time(next.atAt, night.site.zone), name })
}

const LONG_MIN = 60

/** `Wait about 10 minutes. 12 people in line.` */
function waitText(words: Words, { waitMin, inLine }: Queue): string {
  const minutes = aboutMin(waitMin)
  const key = minutes === 0 ? 'queue.wait-none' : minutes > LONG_MIN ? 'queue.wait-long' : 'queue.wait'
  return [words.say(key, { minutes }), words.say('queue.in-line', { count: inLine })].join(' ')
}

function closing(words: Words, { night }: Subject, queue: Queue | null) {
  if (queue === null) return { close: null, isTimeToClose: false, closeWhy: null }
  const time = (at: Date) => words.time(at, night.site.zone)
  const { isTimeToClose, closeLineAt, leaveAt } = queue
  return {
    close: isTimeToClose ? words.say('queue.close-now') : words.say('queue.close-at', { time: time(closeLineAt) }),
    isTimeToClose,
    closeWhy: isTimeToClose ? words.say('queue.close-why', { time: time(leaveAt) }) : null,
  }
}

function paceOf(words: Words, { night, line }: Subject, station: StationLine) {
  const { queue, timedAt, timeAgainAt, isTimingDue } = station
  if (queue === null) return { pace: null, due: null, isDue: false }
  const time = (at: Date | null) => (at === null ? '' : words.time(at, night.site.zone))
  const pace = { time: time(timedAt), seconds: Math.round(queue.cycleSec), looks: Math.floor(queue.looksPerHour) }
  const isLater = timeAgainAt !== null && timeAgainAt > line.at
  const again = isLater ? words.say('queue.due-again', { time: time(timeAgainAt) }) : null
  return {
    pace: words.say(queue.isMeasured ? 'queue.pace-timed' : 'queue.pace', pace),
    due: isTimingDue ? words.say('queue.due') : again,
    isDue: isTimingDue,
  }
}
