import type { GoLimits } from '../../tours/go-limits.ts'
import type { Night } from '../../tours/night.ts'
import { type Field, type FormState, type ProblemList, problemList } from './form.ts'
import { type LimitFields, limitFields, rainField } from './go-form.ts'
import { nightSheet } from './night-links.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { fieldsInRows } from './telescope-form-rows.ts'

export interface GoLimitsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: readonly string[]
  readonly problems: ProblemList | null
  readonly action: string
  readonly units: string
  readonly groups: readonly LimitFields[]
  readonly rain: Field
  readonly rainLabel: string
  readonly rainHint: string
  readonly save: string
  readonly backHref: string
  readonly backText: string
}

interface GoLimitsSubject {
  readonly night: Night
  readonly hasTour: boolean
  readonly limits: GoLimits
  readonly state: FormState
}

/** The host's own limits, the same on all nights. */
export function goLimitsPage(viewer: Viewer, subject: GoLimitsSubject): GoLimitsPage {
  const { words } = viewer
  const { night, hasTour, limits, state } = subject
  const title = words.say('go.limits-title')
  const [groups, rain] = [limitFields(words, state, limits), rainField(words, state, limits)]
  const rows = groups.map(({ label, fields }) => ({ title: label, fields }))
  return {
    sheet: nightSheet(viewer, title, { night, hasTour, here: null }),
    title,
    intro: [words.say('go.limits-intro'), words.say('go.limits-local')],
    problems: problemList(words, state, [...fieldsInRows(words, rows), rain]),
    action: `/nights/${night.id}/go/limits`,
    units: words.settings.units,
    groups,
    rain,
    rainLabel: words.say('go.limit-of-rain'),
    rainHint: words.say('go.limit-from-rain'),
    save: words.say('go.save-limits'),
    backHref: `/nights/${night.id}/go`,
    backText: words.say('go.back'),
  }
}
