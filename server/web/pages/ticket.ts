import { linesOf } from '../../drawings/letter-widths.ts'
import { firstShowings } from '../../tours/first-showing.ts'
import type { Stop } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Names } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

interface TicketThing {
  readonly text: string
  /** The station at which it is found; null for what is found anywhere. */
  readonly where: string | null
}

interface Ticket {
  readonly title: string
  readonly nameLabel: string
  readonly doneText: string
  readonly things: readonly TicketThing[]
  readonly version: string
  readonly stale: string | null
  /** The same ticket so many times on a page. */
  readonly copies: readonly number[]
}

const COPIES = [1, 2]
const MOST_THINGS = 10
const MOST_TARGETS = 6
const MOST_BY_EYE = 2
/** Beside its box a thing has so many lines, the first of 14 and the last of 12 points; widths in type sizes. */
const MOST_LINES = 3
const TEXT_EM = 15.6
const WHERE_EM = 18.2
const ALWAYS = ['thanks', 'question'] as const
const IN_THE_DARK = ['coloured-star', 'moving-dot', 'own-pattern', 'more-stars'] as const
const ANYWHERE = ['night-sound', 'red-lamp', 'biggest', 'mirror', 'let-first', 'still', 'tell', 'warm'] as const

/** Ten things for a child to find: tonight's first, and what is there on any night. */
export function ticket(viewer: Viewer, subject: PrintSubject): Ticket {
  const { words } = viewer
  const { night, tour, isStale } = subject
  const found = [...targets(words, subject), ...byEye(words, subject)]
  return {
    title: words.say('ticket.title'),
    nameLabel: words.say('ticket.name'),
    doneText: words.say('ticket.all'),
    things: [...found, ...anyNight(words, subject)].slice(0, MOST_THINGS - ALWAYS.length).concat(always(words)),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    copies: COPIES,
  }
}

const always = (words: Words): readonly TicketThing[] => ALWAYS.map((key) => general(words, key))
const general = (words: Words, key: string): TicketThing => ({ text: words.say(`ticket.${key}`), where: null })

/** Tonight's targets, one of every kind before a second of any. */
function targets(words: Words, { night, tour, names }: PrintSubject): readonly TicketThing[] {
  const stops = firstShowings(night, tour)
  const kindOf = ({ targetKey }: Stop) => names.show(targetKey)?.kind
  const isFirst = (stop: Stop): boolean => stops.find((other) => kindOf(other) === kindOf(stop)) === stop
  const chosen = [...stops.filter(isFirst), ...stops.filter((stop) => !isFirst(stop))].slice(0, MOST_TARGETS)
  return stops
    .filter((stop) => chosen.includes(stop))
    .map((stop) => {
      const where = words.say('ticket.at', { station: stationName(night, names, stop.stationId) })
      return { text: childText(words, names, stop.targetKey, where), where }
    })
}

/** A thing in a child's words: by its own name where everyone knows it, else by what it is, with its name where there is room. */
function childText(words: Words, names: Names, key: string, where: string): string {
  const name = names.nameOf(key)
  const object = names.show(key)
  if (object === undefined) return name
  const own = `ticket.body-${object.body ?? ''}`
  if (words.knows(own)) return words.say(own)
  const what = words.say(`ticket.kind-${object.kind}`)
  const named = words.say('ticket.named', { what, name })
  const lines = linesOf(named, TEXT_EM).length + linesOf(where, WHERE_EM).length
  return lines <= MOST_LINES ? named : what
}

/** What bare eyes find tonight, first what a guide points at, then planets, none that a telescope shows. */
function byEye(words: Words, { tour, names, beside, bareEyes }: PrintSubject): readonly TicketThing[] {
  const shown = new Set(tour.stops.map(({ targetKey }) => targetKey))
  const guided = beside
    .filter(({ kind }) => kind === 'bare-eye')
    .flatMap(({ lines }) => lines.flatMap((line) => (line.what === 'sight' ? [line.targetKey] : [])))
  const planets = bareEyes.planets.filter(({ isNow }) => isNow).map(({ key }) => key)
  const keys = [...new Set<string>([...guided, ...planets])].filter((key) => !shown.has(key))
  return keys
    .slice(0, MOST_BY_EYE)
    .map((key) => ({ text: words.say('ticket.by-eye', { name: names.nameOf(key) }), where: null }))
}

function anyNight(words: Words, { tour, names, evening }: PrintSubject): readonly TicketThing[] {
  const isMoonShown = tour.stops.some(({ targetKey }) => names.show(targetKey)?.kind === 'moon')
  const isMoonUp = evening.moon.altitudeDeg > 0 && !isMoonShown
  const inTheDark = evening.nauticalDuskAt === null ? [] : IN_THE_DARK
  return [...(isMoonUp ? ['moon'] : []), ...inTheDark, ...ANYWHERE].map((key) => general(words, key))
}
