import { basename } from 'node:path'
import type { BackupStatus, CopySeen } from '../../desk/backups.ts'
import type { Words } from '../../words/words.ts'
import { backupAttention, backupText, laptopTime } from './backup-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface CopyLine {
  readonly when: string
  readonly kind: string
  readonly what: string
  /** Where the host is asked once more; null for a copy that cannot be gone back to. */
  readonly href: string | null
  readonly goBack: string
  readonly problem: string | null
}

export interface BackupsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly lead: string
  readonly problems: readonly string[]
  /** What came of going back at this start; null when the database did not. */
  readonly wentBack: string | null
  /** Takes the wish to go back away; null without one. */
  readonly stay: string | null
  readonly action: string
  readonly copyNow: string
  readonly rhythm: string
  readonly copies: readonly CopyLine[]
  readonly emptyText: string
  readonly hints: readonly string[]
}

/** The copies of the database, whether they are made, and the way back to one. */
export function backupsPage(viewer: Viewer, status: BackupStatus, copies: readonly CopySeen[]): BackupsPage {
  const { words } = viewer
  const { wentBack, goesBackTo } = status
  return {
    sheet: daySheet(viewer, words.say('backups.title'), 'board'),
    title: words.say('backups.title'),
    lead: backupText(viewer, status),
    problems: backupAttention(words, status),
    wentBack: wentBack && wentBack.refusal === null ? wentBackText(words, wentBack) : null,
    stay: goesBackTo === null ? null : words.say('backups.stay'),
    action: '/backups',
    copyNow: words.say('backups.copy-now'),
    rhythm: words.say(status.isTimed ? 'backups.rhythm' : 'backups.rhythm-off'),
    copies: copies.map((copy) => copyLine(words, status, copy)),
    emptyText: words.say('backups.none-yet'),
    hints: [words.say('backups.hint-kept'), words.say('backups.hint-command')],
  }
}

function wentBackText(words: Words, { path, asideAt }: NonNullable<BackupStatus['wentBack']>): string {
  const now = words.say('backups.went-back', { name: basename(path) })
  return asideAt === null ? now : `${now} ${words.say('backups.set-aside', { folder: asideAt })}`
}

function copyLine(words: Words, status: BackupStatus, copy: CopySeen): CopyLine {
  const { name, kind, madeAt, refusal } = copy
  return {
    when: laptopTime(words, status, madeAt),
    kind: words.say(`backups.kind-${kind}`),
    what: whatIsIn(words, copy),
    href: refusal === null ? `/backups/${name}` : null,
    goBack: words.say('backups.go-back'),
    problem: refusal === null ? null : words.say(`backups.refusal-${refusal}`),
  }
}

const whatIsIn = (words: Words, { bytes, nights, marks }: CopySeen): string =>
  words.say('backups.what', {
    size: words.say('backups.size', { size: words.number(bytes / 1_000_000, 1) }),
    nights: words.say('backups.nights', { count: nights }),
    marks: words.say('backups.marks', { count: marks }),
  })

export interface GoBackPage {
  readonly sheet: Sheet
  readonly title: string
  readonly what: string
  readonly lines: readonly string[]
  readonly action: string
  readonly goBack: string
  readonly backHref: string
  readonly backText: string
}

/** Asks once more before the database goes back to a copy. */
export function goBackPage(viewer: Viewer, status: BackupStatus, copy: CopySeen): GoBackPage {
  const { words } = viewer
  const title = words.say('backups.sure', { time: laptopTime(words, status, copy.madeAt) })
  return {
    sheet: daySheet(viewer, title, 'board'),
    title,
    what: whatIsIn(words, copy),
    lines: [words.say('backups.sure-lost'), words.say('backups.sure-kept'), words.say('backups.sure-start')],
    action: `/backups/${copy.name}`,
    goBack: words.say('backups.go-back'),
    backHref: '/backups',
    backText: words.say('backups.leave-it'),
  }
}
