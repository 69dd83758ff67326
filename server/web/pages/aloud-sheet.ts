import { linesOf } from '../../drawings/letter-widths.ts'
import { nightHours } from '../../tours/hours.ts'
import { sunTonight } from '../../tours/sun-tonight.ts'
import { sunText } from './align.ts'
import { type AloudLine, aloudLines, type WrongEntry, wrongEntries, wrongLabels } from './aloud-text.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

interface AloudSheet {
  readonly title: string
  readonly subtitle: string
  readonly version: string
  readonly stale: string | null
  readonly how: string
  readonly sun: string
  readonly lines: readonly (AloudLine & { readonly isBlank: boolean })[]
  readonly table: string
  readonly wrongLabel: string
  readonly seenLabel: string
  readonly caughtLabel: string
  readonly wrong: readonly WrongEntry[]
  /** True where the table is so long that a page holds it in smaller letters alone. */
  readonly isDense: boolean
}

/** As many lines of 14 points as a page holds in the table, and the widths of its columns in type sizes. */
const TABLE = { lines: 35, wrongEm: 8.2, seenEm: 14.3, caughtEm: 14 }

const rowLines = ({ wrong, seen, caught }: WrongEntry): number =>
  Math.max(
    linesOf(wrong, TABLE.wrongEm, true).length,
    linesOf(seen, TABLE.seenEm).length,
    linesOf(caught, TABLE.caughtEm).length,
  )

/** The lines for the opening of the night, with a blank for the time, and what a wrong entry looks like. */
export function aloudSheet(viewer: Viewer, { night, tour, evening, isStale }: PrintSubject): AloudSheet {
  const { words } = viewer
  const { opensAt } = nightHours(night)
  const wrong = wrongEntries(words)
  return {
    title: words.say('print.aloud'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    how: words.say('aloud.how'),
    sun: sunText(words, sunTonight(night.site, evening, opensAt)),
    lines: aloudLines(words, { night, at: opensAt, time: null }).map((line) => ({
      ...line,
      isBlank: line.said === '',
    })),
    table: words.say('aloud.table'),
    ...wrongLabels(words),
    wrong,
    isDense: wrong.reduce((sum, entry) => sum + rowLines(entry), 0) > TABLE.lines,
  }
}
