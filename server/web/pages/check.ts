import type { Check, CheckGroup, CheckLine } from '../../tours/check.ts'
import type { Night } from '../../tours/night.ts'
import { nightSheet, objectHref } from './night-links.ts'
import type { ProgrammeNote } from './programme-notes.ts'
import { causeText, directionText, type Names, remarkText, targetName, untilText } from './say.ts'
import type { Sheet, SheetLink, Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

interface CheckRow {
  readonly name: string
  readonly href: string
  readonly station: string
  readonly when: string
  readonly direction: string
  readonly more: string
  readonly isSpare: boolean
}

interface CheckSection {
  readonly group: CheckGroup
  readonly title: string
  readonly meaning: string
  readonly rows: readonly CheckRow[]
  readonly spares: readonly CheckRow[]
  readonly emptyText: string
  readonly isEmpty: boolean
}

export interface CheckPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly time: string
  readonly notes: readonly ProgrammeNote[]
  readonly times: readonly SheetLink[]
  readonly timesLabel: string
  readonly changes: readonly string[]
  readonly changesLabel: string
  readonly sections: readonly CheckSection[]
  readonly sparesLabel: string
}

const GROUPS: readonly CheckGroup[] = ['going', 'good', 'coming', 'gone']

/**
 * The half-hour check in four groups, going first because it cannot wait; `times` are the half hours one may ask for,
 * `notes` what must be known of the programme that is checked. By the lamp it is read in the field.
 */
export function checkPage(
  viewer: Viewer,
  night: Night,
  check: Check,
  times: readonly Date[],
  names: Names,
  notes: readonly ProgrammeNote[] = [],
  look: 'day' | 'lamp' = 'day',
): CheckPage {
  const { words } = viewer
  return {
    sheet: nightSheet(viewer, words.say('page.check-of', { title: night.title }), {
      night,
      hasTour: true,
      here: 'check',
      look,
    }),
    nightTitle: night.title,
    title: words.say('page.check'),
    time: words.time(check.at, night.site.zone),
    notes,
    times: timeLinks(viewer, night, check, times, look),
    timesLabel: words.say('page.check-times'),
    changes: check.changes.map((change) => remarkText(words, change)),
    changesLabel: words.say('page.check-changes'),
    sections: GROUPS.map((group) => section(viewer, night, check, group, names)),
    sparesLabel: words.say('page.spares'),
  }
}

function timeLinks(
  { words }: Viewer,
  night: Night,
  check: Check,
  times: readonly Date[],
  look: 'day' | 'lamp',
): SheetLink[] {
  const kept = look === 'lamp' ? '&look=lamp' : ''
  return times.map((at) => ({
    href: `/nights/${night.id}/check?at=${encodeURIComponent(at.toISOString())}${kept}`,
    text: words.time(at, night.site.zone),
    isHere: at.getTime() === check.at.getTime(),
  }))
}

function section(viewer: Viewer, night: Night, check: Check, group: CheckGroup, names: Names): CheckSection {
  const { words } = viewer
  const lines = check.lines.filter((line) => line.group === group)
  const rows = lines.map((line) => checkRow(viewer, night, line, names))
  return {
    group,
    title: words.say(`check.${group}`),
    meaning: words.say(`check.${group}-means`),
    rows: rows.filter(({ isSpare }) => !isSpare),
    spares: rows.filter(({ isSpare }) => isSpare),
    emptyText: words.say('check.none'),
    isEmpty: rows.length === 0,
  }
}

/** One line of the check: what, where it stands in words and fists, and until or from when. */
export function checkRow({ words }: Viewer, night: Night, line: CheckLine, names: Names): CheckRow {
  return {
    name: targetName(words, names, line.targetKey, line.aim),
    href: objectHref(night, line.targetKey),
    station: stationName(night, names, line.stationId),
    when: whenText(words, night, line),
    direction: directionText(words, line),
    more: moreText(words, line),
    isSpare: line.isSpare,
  }
}

type CheckWords = Viewer['words']

function whenText(words: CheckWords, night: Night, line: CheckLine): string {
  const { zone } = night.site
  if (line.group === 'coming') {
    return line.fromAt ? words.say('check.from', { time: words.time(line.fromAt, zone) }) : words.say('check.later')
  }
  if (line.group === 'gone') return line.cause ? causeText(words, line.cause) : words.say('check.over')
  if (!line.untilAt) return words.say('page.until-end')
  return line.cause
    ? untilText(words, line.untilAt, line.cause, zone)
    : words.say('page.until-time', { time: words.time(line.untilAt, zone) })
}

function moreText(words: CheckWords, { altitudeDeg, eyepieceHeightCm, minutesLeft }: CheckLine): string {
  return [
    ...(altitudeDeg <= 0 ? [] : [words.say('check.height', { degrees: words.number(altitudeDeg) })]),
    ...(eyepieceHeightCm === null
      ? []
      : [words.say('check.eyepiece', { height: words.length(eyepieceHeightCm, 'centimeter') })]),
    ...(minutesLeft === null ? [] : [words.say('check.minutes', { count: Math.round(minutesLeft) })]),
  ].join(' ')
}
