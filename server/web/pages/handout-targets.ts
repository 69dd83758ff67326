import { linesOf } from '../../drawings/letter-widths.ts'
import { firstShowings } from '../../tours/first-showing.ts'
import type { Stop } from '../../tours/tour.ts'
import { lightText } from './light-text.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** A thing that a visitor may have seen, with the number that it has on the chart. */
interface HandoutTarget {
  readonly number: string
  readonly name: string
  readonly what: string
  /** One thing to remember; null where there is none, or no room. */
  readonly remember: string | null
}

export interface HandoutTargets {
  readonly targets: readonly HandoutTarget[]
  /** How many more there were; null when all are listed. */
  readonly more: string | null
}

/** A column of 12 pt letters beside its box, in type sizes. */
const COLUMN_EM = 19.2

/** The evening's targets in the order of their showing, in so many lines of a column: all of them before one is told of. */
export function handoutTargets(viewer: Viewer, subject: PrintSubject, roomLines: number): HandoutTargets {
  const all = firstShowings(subject.night, subject.tour).map((stop, index) => target(viewer, subject, stop, index))
  const listed = fitting(all, roomLines)
  const left = all.length - listed.length
  return {
    targets: withMemories(listed, roomLines),
    more: left === 0 ? null : viewer.words.say('handout.more', { count: left }),
  }
}

function target(viewer: Viewer, subject: PrintSubject, stop: Stop, index: number): HandoutTarget {
  const { words } = viewer
  const { night, names } = subject
  const object = names.show(stop.targetKey)
  const station = stationName(night, names, stop.stationId)
  const kind = object ? words.say(`kind.${object.kind}`) : null
  const constellation = object?.constellation ? words.say(`constellation.${object.constellation}`) : null
  return {
    number: words.number(index + 1),
    name: names.nameOf(stop.targetKey),
    what: whatText(viewer, kind === names.nameOf(stop.targetKey) ? null : kind, constellation, station),
    remember: memory(viewer, subject, stop),
  }
}

function whatText({ words }: Viewer, kind: string | null, constellation: string | null, station: string): string {
  if (kind === null) return words.say('handout.at', { station })
  if (constellation === null) return words.say('handout.what', { kind, station })
  return words.say('handout.what-in', { kind, constellation, station })
}

/** When its light set out, or else the number that its story compares, or what to look for. */
function memory({ words }: Viewer, { names }: PrintSubject, { targetKey, startsAt }: Stop): string | null {
  const object = names.show(targetKey)
  const light = object ? lightText(words, object, startsAt, names.worldEvents()) : null
  const story = names.story(targetKey)
  return light?.left ?? ([story?.compare, story?.lookFor].find((text) => text) || null)
}

const linesFor = ({ name, what }: HandoutTarget): number =>
  linesOf(name, COLUMN_EM, true).length + linesOf(what, COLUMN_EM).length
const memoryLines = ({ remember }: HandoutTarget): number =>
  remember === null ? 0 : linesOf(remember, COLUMN_EM).length

function fitting(all: readonly HandoutTarget[], roomLines: number): readonly HandoutTarget[] {
  let left = roomLines
  return all.filter((one) => {
    left -= left < 0 ? 0 : linesFor(one)
    return left >= 0
  })
}

/** Memories as far as there is room for them, in the order of the evening. */
function withMemories(listed: readonly HandoutTarget[], roomLines: number): readonly HandoutTarget[] {
  let left = roomLines - listed.reduce((sum, one) => sum + linesFor(one), 0)
  return listed.map((one) => {
    const lines = memoryLines(one)
    if (lines > left) return { ...one, remember: null }
    left -= lines
    return one
  })
}
