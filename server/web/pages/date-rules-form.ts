import { BUSY_KINDS, NIGHT_KINDS } from '../../tours/date-rules.ts'
import type { Site } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { weekdayNames } from './date-text.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Group {
  readonly label: string
  readonly hint: string | null
  /** Nothing but ticks, which need less room. */
  readonly isTicks: boolean
  readonly fields: readonly Field[]
}

export interface DateRulesPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly groups: readonly Group[]
  readonly busyLabel: string
  readonly busyHint: string
  readonly busy: readonly Field[]
  readonly save: string
  readonly backHref: string
  readonly backText: string
}

/** The form of what a host asks of dates at a site. */
export function dateRulesPage(viewer: Viewer, site: Site, state: FormState): DateRulesPage {
  const { words } = viewer
  const groups = groupsOf(words, state)
  const busy = BUSY_KINDS.map((kind) => formFields(words, state).text(kind, { label: words.say(`dates.list-${kind}`) }))
  const title = words.say('dates.rules-of', { site: viewer.siteName(site) })
  return {
    sheet: daySheet(viewer, title, 'nights'),
    title,
    intro: words.say('dates.rules-intro'),
    action: `/sites/${site.id}/date-rules`,
    problems: problemList(words, state, [...groups.flatMap(({ fields }) => fields), ...busy]),
    groups,
    busyLabel: words.say('dates.busy'),
    busyHint: words.say('dates.busy-hint'),
    busy,
    save: words.say('dates.save-rules'),
    backHref: `/dates?site=${site.id}`,
    backText: words.say('dates.back'),
  }
}

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7]
const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1)

function groupsOf(words: Words, state: FormState): readonly Group[] {
  const { text, number, choice, tick } = formFields(words, state)
  const label = (name: string) => ({ label: words.say(`dates.field-${name}`) })
  const hinted = (name: string) => ({ ...label(name), hint: words.say(`dates.field-${name}-hint`) })
  const group = (name: string, fields: readonly Field[], isTicks = false): Group => ({
    label: words.say(`dates.group-${name}`),
    hint: isTicks ? words.say(`dates.group-${name}-hint`) : null,
    isTicks,
    fields,
  })
  const kinds = NIGHT_KINDS.map((kind) => ({ value: kind, text: words.say(`dates.kind-${kind}`) }))
  return [
    group('night', [
      choice('kind', { ...hinted('kind'), isWide: true }, kinds),
      number('afterSunsetMin', label('afterSunsetMin')),
      text('opensFrom', label('opensFrom')),
      text('bedtime', hinted('bedtime')),
      number('darkHours', hinted('darkHours')),
    ]),
    group(
      'weekdays',
      weekdayNames(words, WEEKDAYS).map((day, i) => tick(`weekdays.${i + 1}`, { label: day })),
      true,
    ),
    group(
      'months',
      MONTHS.map((month) => tick(`months.${month}`, { label: words.month(month) })),
      true,
    ),
    group('moon', [
      tick('isMoonRuled', label('isMoonRuled')),
      number('moonDays', hinted('moonDays')),
      number('fullDays', label('fullDays')),
    ]),
    group('apart', [number('weeksApart', hinted('weeksApart')), number('backUpDays', label('backUpDays'))]),
  ]
}
