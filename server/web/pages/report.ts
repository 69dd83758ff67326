import type { NightReport } from '../../desk/reports.ts'
import { lacksOf } from '../../tours/report-edits.ts'
import type { FormState, ProblemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import type { PaperLink, PaperLook, PapersPage } from './paper.ts'
import { type ReportForm, reportForm, reportHref, reportProblems } from './report-form.ts'
import {
  helpersPart,
  improvePart,
  type ReportFact,
  type ReportPart,
  reportFacts,
  skippedPart,
  skyPart,
} from './report-parts.ts'
import { halfHoursTable, numbersTable, showingsTable, stationsTable, targetsTable } from './report-tables.ts'
import { clockText, estimateText, publicHours, type ReportGround, volunteerText } from './report-words.ts'
import type { Names } from './say.ts'
import { paperSheet, type Sheet, type Viewer } from './sheet.ts'
import type { Table } from './table.ts'
import { withRowNames } from './telescope-names.ts'

export interface ReportPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  /** Whether it is a beginning, a draft or settled. */
  readonly lead: string
  readonly lacksLabel: string
  readonly lacks: readonly string[]
  /** To the form that mends it; null where nothing is missing or nothing can be written. */
  readonly write: PaperLink | null
  readonly print: PaperLink
  /** The report as files, and the pages of which it is a part. */
  readonly ways: readonly PaperLink[]
  readonly facts: readonly ReportFact[]
  readonly numbers: Table
  readonly notes: readonly string[]
  readonly tables: readonly Table[]
  readonly parts: readonly ReportPart[]
  readonly problems: ProblemList | null
  /** Null for whoever may only read, and while the night is closed. */
  readonly form: ReportForm | null
  readonly closing: { readonly action: string; readonly hint: string; readonly text: string } | null
}

interface ReportSubject {
  readonly report: NightReport
  readonly names: Names
  readonly hasTour: boolean
  readonly state: FormState
}

/** The report of a night: reckoned by itself, and put right by the host beside it. */
export function reportPage(viewer: Viewer, subject: ReportSubject): ReportPage {
  const { words, mayHost } = viewer
  const { names, hasTour, state } = subject
  const report = withRowNames(viewer, subject.report)
  const ground = { words, names, report, mayHost }
  const { night } = report
  const form = mayHost && night.state !== 'closed' ? reportForm(ground, state) : null
  const lacks = lacksOf(report.facts, report.edits).map((lack) => words.say(`report.lack-${lack}`))
  return {
    sheet: nightSheet(viewer, words.say('report.title-of', { title: night.title }), { night, hasTour, here: 'report' }),
    nightTitle: night.title,
    title: words.say('report.title'),
    lead: leadText(ground),
    lacksLabel: words.say('report.lacks'),
    lacks,
    write: form && lacks.length > 0 ? { href: '#form', text: words.say('report.write') } : null,
    print: { href: `${reportHref(night)}/print`, text: words.say('report.print') },
    ways: waysOf(ground),
    facts: reportFacts(ground),
    numbers: numbersTable(ground),
    notes: notesOf(ground),
    tables: tablesOf(ground, [stationsTable, targetsTable, halfHoursTable, showingsTable]),
    parts: [skyPart, skippedPart, helpersPart, improvePart].map((part) => part(ground)),
    problems: form && reportProblems(ground, state, form),
    form,
    closing: mayHost ? closingOf(ground) : null,
  }
}

function leadText(ground: ReportGround): string {
  const { words, report } = ground
  if (report.night.state === 'closed') return words.say('report.is-closed')
  if (report.facts.isOver) return words.say('report.is-draft')
  return words.say('report.is-begun', { time: clockText(ground, report.facts.at), closes: publicHours(ground).to })
}

/** Those that have something to say. */
const tablesOf = (ground: ReportGround, makers: readonly ((of: ReportGround) => Table)[]): readonly Table[] =>
  makers.map((make) => make(ground)).filter(({ rows }) => rows.length > 0)

const paperState = ({ night, facts }: NightReport): 'closed' | 'draft' | 'begun' => {
  if (night.state === 'closed') return 'closed'
  return facts.isOver ? 'draft' : 'begun'
}

/** What looks are and are not, how they were reckoned, and what the helpers gave. */
const notesOf = (ground: ReportGround): string[] => [
  ground.words.say('report.looks-are-not-people'),
  estimateText(ground),
  ground.words.say('report.waits-how'),
  volunteerText(ground),
]

function waysOf({ words, report, mayHost }: ReportGround): PaperLink[] {
  const href = reportHref(report.night)
  return [
    { href: `${href}.csv`, text: words.say('report.csv') },
    { href: `/api${href}`, text: words.say('report.json') },
    ...(mayHost ? [{ href: `/nights/${report.night.id}/file`, text: words.say('carry.whole-night') }] : []),
    { href: '/season', text: words.say('season.link') },
  ]
}

function closingOf({ words, report }: ReportGround): ReportPage['closing'] {
  const isClosed = report.night.state === 'closed'
  if (!isClosed && !report.facts.isOver) return null
  const act = isClosed ? 'reopen' : 'close'
  return {
    action: `${reportHref(report.night)}/${act}`,
    hint: words.say(`report.${act}-hint`),
    text: words.say(`report.${act}`),
  }
}

interface ReportPiece {
  readonly title: string
  readonly subtitle: string
  readonly state: string
  readonly facts: readonly ReportFact[]
  readonly numbers: Table
  readonly notes: readonly string[]
  readonly tables: readonly Table[]
  readonly parts: readonly ReportPart[]
}

/** The report on one page or two. What was shown when is on the page of the night, and in its files. */
function reportPiece(ground: ReportGround): ReportPiece {
  const { words, report } = ground
  const { night } = report
  return {
    title: words.say('report.title-of', { title: night.title }),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    state: words.say(`report.paper-${paperState(report)}`, { time: clockText(ground, report.facts.at) }),
    facts: reportFacts(ground).slice(2),
    numbers: numbersTable(ground),
    notes: notesOf(ground),
    tables: tablesOf(ground, [stationsTable, targetsTable, halfHoursTable]),
    parts: [skyPart, skippedPart, helpersPart, improvePart].map((part) => part(ground)),
  }
}

/** The report as a printed document. */
export function reportPaper(viewer: Viewer, told: NightReport, names: Names, look: PaperLook): PapersPage {
  const { words, mayHost } = viewer
  const report = withRowNames(viewer, told)
  const href = reportHref(report.night)
  const asked = (changed: Partial<PaperLook>) => `${href}/print?${new URLSearchParams({ ...look, ...changed })}`
  const paper = look.paper === 'a4' ? 'letter' : 'a4'
  const letters = look.letters === 'large' ? 'normal' : 'large'
  return {
    sheet: paperSheet(viewer, words.say('report.title-of', { title: report.night.title })),
    ...look,
    isLarge: look.letters === 'large',
    hint: words.say('print.hint'),
    notes: [],
    leftOut: null,
    links: [
      { href, text: words.say('report.title') },
      { href: asked({ paper }), text: words.say(`print.use-${paper}`) },
      { href: asked({ letters }), text: words.say(`print.letters-${letters}`) },
    ],
    cardForm: null,
    pieces: [{ partial: 'report', model: reportPiece({ words, names, report, mayHost }) }],
  }
}
