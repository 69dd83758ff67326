import { addTo, agenda, takeFrom } from './simulation-heap.ts'
import {
  beginsSec,
  hasMore,
  isOpenFor,
  type Line,
  type LineEvening,
  type LineInput,
  noteLength,
  personOf,
  stand,
  stepOut,
  turnSec,
} from './simulation-lines.ts'

/** Who has nothing new to join looks about for two minutes (our choice). */
const LOOK_ABOUT_SEC = 120

/** An evening at its opening. */
export function beginLines(input: LineInput): LineEvening {
  const lines: Line[][] = input.stations.map(({ stops }, station) =>
    stops.map((stop, number) => {
      return { station, stop, number, waiting: [], waitingSec: 0, closedSec: stop.untilSec - stop.adultSec }
    }),
  )
  const evening: LineEvening = {
    input,
    agenda: agenda(),
    people: input.visitors.map(() => ({
      seen: new Set<string>(),
      left: new Set<Line>(),
      place: 0,
      line: null,
      joinedSec: 0,
      joinings: 0,
    })),
    lines,
    allLines: lines.flat(),
    busyUntilSec: new Float64Array(input.stations.length),
    turns: [],
    lengths: [],
    gaveUp: 0,
  }
  for (const { station, stop } of evening.allLines)
    addTo(evening.agenda, { sec: stop.fromSec, does: 'serve', station, leaver: null })
  for (const [visitor, { arrivesSec }] of input.visitors.entries())
    addTo(evening.agenda, { sec: arrivesSec, does: 'choose', visitor })
  return evening
}

/** Plays so many acts; false when the evening is over. Slices add up: twice 500 acts are the same as 1000. */
export function advanceLines(evening: LineEvening, acts: number): boolean {
  for (let done = 0; done < acts; done++) {
    const act = takeFrom(evening.agenda)
    if (act === undefined) return false
    if (act.does === 'choose') choose(evening, act.visitor, act.sec)
    else if (act.does === 'join') join(evening, act.visitor, act.line, act.sec)
    else if (act.does === 'give-up') giveUp(evening, act.visitor, act.joining, act.sec)
    else serve(evening, act.station, act.leaver, act.sec)
  }
  return true
}

/** Goes to the shortest line, in minutes as the helper there says, of a thing not yet seen; of equal ones to the nearest. */
function choose(evening: LineEvening, visitor: number, sec: number): void {
  const person = personOf(evening, visitor)
  const { habits, visitors } = evening.input
  const leavesSec = visitors[visitor]?.leavesSec ?? 0
  if (sec >= leavesSec) return
  let [best, bestSec, bestWalkSec] = [null as Line | null, Number.POSITIVE_INFINITY, 0]
  for (const line of evening.allLines) {
    const walkSec = habits.walkSec * Math.abs(line.station - person.place)
    if (!isOpenFor(evening, line, visitor, sec + walkSec)) continue
    const waitSec = beginsSec(evening, line, sec + walkSec) - sec - walkSec
    if (waitSec > bestSec || (waitSec === bestSec && walkSec >= bestWalkSec)) continue
    best = line
    bestSec = waitSec
    bestWalkSec = walkSec
  }
  if (best) addTo(evening.agenda, { sec: sec + bestWalkSec, does: 'join', visitor, line: best })
  else if (hasMore(evening, visitor, sec))
    addTo(evening.agenda, { sec: Math.min(sec + LOOK_ABOUT_SEC, leavesSec), does: 'choose', visitor })
}

/** Joins at the end of the walk, or chooses anew where the line has grown too long meanwhile. */
function join(evening: LineEvening, visitor: number, line: Line, sec: number): void {
  const person = personOf(evening, visitor)
  person.place = line.station
  if (!isOpenFor(evening, line, visitor, sec)) {
    choose(evening, visitor, sec)
    return
  }
  person.line = line
  person.joinedSec = sec
  person.joinings += 1
  stand(evening, line, visitor)
  const { adultPatienceSec, childPatienceSec } = evening.input.habits
  const patienceSec = evening.input.visitors[visitor]?.isChild ? childPatienceSec : adultPatienceSec
  if (Number.isFinite(patienceSec))
    addTo(evening.agenda, { sec: sec + patienceSec, does: 'give-up', visitor, joining: person.joinings })
  serve(evening, line.station, null, sec)
  const lastSec = line.stop.untilSec - line.stop.adultSec
  line.closedSec = beginsSec(evening, line, sec) > lastSec ? sec : lastSec
}

function giveUp(evening: LineEvening, visitor: number, joining: number, sec: number): void {
  const person = personOf(evening, visitor)
  const { line } = person
  if (line === null || person.joinings !== joining) return
  stepOut(evening, line, visitor)
  person.left.add(line)
  person.line = null
  evening.gaveUp += 1
  noteLength(evening, line.station, sec)
  choose(evening, visitor, sec)
}

/** Lets the next one look when the eyepiece is free; who has looked, `leaver`, walks on. */
function serve(evening: LineEvening, station: number, leaver: number | null, sec: number): void {
  if (leaver !== null) choose(evening, leaver, sec)
  const line = evening.lines[station]?.find(({ stop }) => stop.fromSec <= sec && sec < stop.untilSec)
  const visitor = (evening.busyUntilSec[station] ?? 0) <= sec ? line?.waiting[0] : undefined
  if (line !== undefined && visitor !== undefined) {
    const person = personOf(evening, visitor)
    stepOut(evening, line, visitor)
    const untilSec = sec + turnSec(evening, line, visitor)
    evening.turns.push({ visitor, station, stop: line.number, joinedSec: person.joinedSec, fromSec: sec, untilSec })
    evening.busyUntilSec[station] = untilSec
    person.seen.add(line.stop.targetKey)
    person.line = null
    addTo(evening.agenda, { sec: untilSec, does: 'serve', station, leaver: visitor })
  }
  noteLength(evening, station, sec)
}
