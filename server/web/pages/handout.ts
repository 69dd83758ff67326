import { linesOf } from '../../drawings/letter-widths.ts'
import { middleOf } from '../../tours/hours.ts'
import { type ByEyeLine, byEyeLines, moonLines } from './bare-eyes-text.ts'
import { type HandoutTargets, handoutTargets } from './handout-targets.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Picture } from './print-pictures.ts'
import type { Viewer } from './sheet.ts'

interface Handout extends HandoutTargets {
  readonly title: string
  readonly where: string
  readonly version: string
  readonly stale: string | null
  readonly seenLabel: string
  readonly emptyText: string
  readonly eyesLabel: string
  readonly eyesNote: string
  readonly byEye: readonly ByEyeLine[]
  readonly moonLabel: string
  readonly moons: readonly ByEyeLine[]
  readonly againLabel: string
  /** The group's own words; '' leaves lines to write on. */
  readonly again: string
  readonly againHints: readonly string[]
  /** Room for the visitor's own words. */
  readonly mineLabel: string
  /** The whole sky in the middle of the public hours. */
  readonly chart: Picture
}

const EYES_LINES = 15
const EYES_EM = 24
/** Two columns of half a page below a title and a place of one line each. */
const TARGET_LINES = 34
/** How much of both columns a further line of the title and of the place takes; widths in type sizes. */
const TITLE = { lines: 4, em: 24 }
const PLACE = { lines: 2, em: 44 }

/** Two sides to take home: the lists that fold to half their size, and the sky behind them. */
export function handout(viewer: Viewer, subject: PrintSubject): Handout {
  const { words } = viewer
  const { night, names, tour, bareEyes, groupText, pictures, isStale } = subject
  const where = words.say('print.where-when', { place: night.site.name, date: words.date(night.date) })
  const say = { words, names, zone: night.site.zone }
  return {
    ...handoutTargets(viewer, subject, targetLines(night.title, where)),
    title: night.title,
    where,
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    seenLabel: words.say('handout.seen'),
    emptyText: words.say('handout.empty'),
    eyesLabel: words.say('handout.eyes'),
    eyesNote: words.say(`handout.eyes-${bareEyes.sun}`),
    byEye: byEyeLines(say, bareEyes, EYES_LINES, EYES_EM),
    moonLabel: words.say('handout.moon'),
    moons: moonLines(say, bareEyes),
    againLabel: words.say('handout.again'),
    again: groupText,
    againHints: ['place', 'next', 'web'].map((key) => words.say(`handout.again-${key}`)),
    mineLabel: words.say('handout.mine'),
    chart: pictures.sky(middleOf(night)),
  }
}

const targetLines = (title: string, where: string): number =>
  TARGET_LINES -
  TITLE.lines * (linesOf(title, TITLE.em, true).length - 1) -
  PLACE.lines * (linesOf(where, PLACE.em).length - 1)
