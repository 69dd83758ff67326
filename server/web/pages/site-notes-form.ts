import type { Site } from '../../tours/site.ts'
import { MOST_OWN_LINES, NOTE_KEYS } from '../../tours/site-notes.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { siteNotesHref } from './notes-href.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface SiteNotesForm {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly local: string
  readonly problems: ProblemList | null
  readonly action: string
  readonly fields: readonly Field[]
  readonly own: Field
  readonly save: string
  readonly links: readonly { readonly href: string; readonly text: string }[]
}

/** What the host must know of a site, each in a line of free text, and lines of the host's own. */
export function siteNotesForm(viewer: Viewer, site: Site, state: FormState): SiteNotesForm {
  const { words } = viewer
  const fields = noteFields(words, state)
  const own = formFields(words, state).text('own', {
    label: words.say('site-notes.own'),
    hint: words.say('site-notes.own-hint', { maximum: MOST_OWN_LINES }),
  })
  const title = words.say('site-notes.of', { site: viewer.siteName(site) })
  return {
    sheet: daySheet(viewer, title, 'sites'),
    title,
    intro: words.say('site-notes.intro'),
    local: words.say('set-up.local'),
    problems: problemList(words, state, [...fields, own]),
    action: siteNotesHref(site),
    fields,
    own,
    save: words.say('site-notes.save'),
    links: [
      { href: `${siteNotesHref(site)}/print`, text: words.say('site-notes.print') },
      { href: '/sites', text: words.say('site-notes.back') },
    ],
  }
}

const noteFields = (words: Words, state: FormState): Field[] =>
  NOTE_KEYS.map((key) =>
    formFields(words, state).text(key, {
      label: words.say(`site-notes.${key}`),
      hint: words.say(`site-notes.ask-${key}`),
      isWide: true,
    }),
  )
