import type { AgainState } from '../../desk/again.ts'
import type { Desk } from '../../desk/desk.ts'
import type { Fault } from '../../errors.ts'
import type { Night } from '../../tours/night.ts'
import { type AgainForm, againForm } from './again-form.ts'
import { fieldLines, knownLines } from './again-known.ts'
import { type AgainNew, againNew } from './again-new.ts'
import type { FormState } from './form.ts'
import { nightSheet } from './night-links.ts'
import type { Names } from './say.ts'
import { mayLead, type Sheet, type Viewer } from './sheet.ts'

interface AgainVersion {
  readonly href: string
  readonly text: string
  readonly why: string
  /** That the row goes by it, or that it waits. */
  readonly state: string | null
}

export interface AgainPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly time: string
  /** Why no programme could be made; null when nothing went wrong. */
  readonly trouble: string | null
  readonly known: readonly string[]
  readonly form: AgainForm | null
  readonly fieldLabel: string
  readonly field: readonly string[]
  readonly newLabel: string
  readonly newOne: AgainNew | null
  readonly noneText: string
  readonly versionsLabel: string
  readonly versions: readonly AgainVersion[]
}

interface AgainSubject {
  readonly night: Night
  readonly state: AgainState
  readonly versions: ReturnType<Desk['tours']['versions']>
  readonly form: FormState
  /** Why the desk would make no programme. */
  readonly trouble: Fault | null
  readonly names: Names
  readonly newKey: () => string
}

/** What has changed of a night under way, what the field says, and old beside new when a programme waits for the host. */
export function againPage(viewer: Viewer, subject: AgainSubject): AgainPage {
  const { words } = viewer
  const { night, state, names, trouble } = subject
  const [known, field] = [knownLines(words, night, state, names), fieldLines(words, night, state, names)]
  return {
    sheet: againSheet(viewer, night),
    nightTitle: night.title,
    title: words.say('again.title'),
    time: words.time(state.at, night.site.zone),
    trouble: trouble && words.say('again.none-made', { why: words.say(trouble.key, trouble.values) }),
    known: known.length > 0 ? known : [words.say('again.known-nothing')],
    form: mayLead(viewer) ? againForm(viewer, subject) : null,
    fieldLabel: words.say('again.field'),
    field: field.length > 0 ? field : [words.say('again.field-calm')],
    newLabel: words.say('again.new'),
    newOne: state.waiting ? againNew(viewer, subject, state.waiting) : null,
    noneText: words.say('again.none-waits', { version: state.tour.version }),
    versionsLabel: words.say('again.versions'),
    versions: [...subject.versions].sort((a, b) => b.version - a.version).map((it) => versionOf(viewer, subject, it)),
  }
}

function againSheet(viewer: Viewer, night: Night): Sheet {
  const title = viewer.words.say('again.of', { title: night.title })
  const sheet = nightSheet(viewer, title, { night, hasTour: true, here: 'again' })
  return { ...sheet, styles: [...sheet.styles, 'hole.css', 'again.css'] }
}

function versionOf(
  { words }: Viewer,
  { night, state }: AgainSubject,
  { id, version, madeAt, why }: AgainSubject['versions'][number],
): AgainVersion {
  const stands = id === state.tour.id ? 'again.goes-by' : id === state.waiting?.id ? 'again.waits' : null
  return {
    href: `/nights/${night.id}/programme?version=${version}`,
    text: words.say('page.made', { version, time: words.time(madeAt, night.site.zone) }),
    why: words.say(`again.why-${why}`),
    state: stands && words.say(stands),
  }
}
