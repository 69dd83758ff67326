import { type ClassVisit, VISIT_LINES } from '../../tours/class-visit.ts'
import type { Night } from '../../tours/night.ts'
import { schoolClassOf } from '../../tours/school-class.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import { classVisitHref } from './notes-href.ts'
import type { PaperLink } from './paper.ts'
import type { Sheet, Viewer } from './sheet.ts'

export interface ClassVisitPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly intro: string
  readonly rules: string
  /** The hours and groups of the class, or that the night has none yet. */
  readonly hours: string
  readonly hoursLink: PaperLink
  readonly problems: ProblemList | null
  readonly action: string
  readonly fields: readonly Field[]
  readonly save: string
  readonly papersLabel: string
  readonly papers: readonly PaperLink[]
  /** Why nothing can be printed yet; null where it can. */
  readonly noPapers: string | null
}

interface ClassVisitSubject {
  readonly night: Night
  readonly hasTour: boolean
  readonly state: FormState
}

const PAPERS = ['class-letter', 'teacher-sheet', 'class-cloud'] as const

/** What is agreed with the school of a visiting class; it stands in the letter and on the teacher's sheet. */
export function classVisitPage(viewer: Viewer, { night, hasTour, state }: ClassVisitSubject): ClassVisitPage {
  const { words } = viewer
  const fields = visitFields(words, state)
  return {
    sheet: nightSheet(viewer, words.say('visit.of', { title: night.title }), { night, hasTour, here: 'class' }),
    nightTitle: night.title,
    title: words.say('visit.title'),
    intro: words.say('visit.intro'),
    rules: words.say('visit.rules'),
    hours: hoursText(words, night),
    hoursLink: { href: `/nights/${night.id}/edit`, text: words.say('visit.change-hours') },
    problems: problemList(words, state, fields),
    action: classVisitHref(night),
    fields,
    save: words.say('visit.save'),
    papersLabel: words.say('visit.papers'),
    papers: hasTour
      ? PAPERS.map((name) => ({ href: `/nights/${night.id}/print/${name}`, text: words.say(`print.${name}`) }))
      : [],
    noPapers: hasTour ? null : words.say('visit.no-papers'),
  }
}

function hoursText(words: Words, night: Night): string {
  const found = schoolClassOf(night)
  if (found === null) return words.say('visit.no-class')
  const time = (at: Date): string => words.time(at, night.site.zone)
  return words.say('visit.hours', { from: time(found.startsAt), to: time(found.endsAt), count: found.groups })
}

const HINTED: readonly (keyof ClassVisit)[] = ['fetch', 'decidesBy', 'announced', 'needs']

function visitFields(words: Words, state: FormState): Field[] {
  const { text, number, tick } = formFields(words, state)
  return [
    ...VISIT_LINES.map((name) =>
      text(name, {
        label: words.say(`visit.${name}`),
        ...(HINTED.includes(name) ? { hint: words.say(`visit.${name}-hint`) } : {}),
      }),
    ),
    number('adultsPerGroup', {
      label: words.say('visit.adultsPerGroup'),
      hint: words.say('visit.adultsPerGroup-hint'),
    }),
    tick('asksPhotos', { label: words.say('visit.asksPhotos') }),
  ]
}
