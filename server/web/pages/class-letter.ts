import { schoolClassOf } from '../../tours/school-class.ts'
import type { Words } from '../../words/words.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'
import type { TeacherLine } from './teacher-sheet.ts'

interface ClassLetter {
  readonly title: string
  readonly subtitle: string
  readonly greeting: string
  readonly opening: string
  readonly facts: readonly TeacherLine[]
  readonly bringLabel: string
  readonly bring: readonly string[]
  readonly cloudLabel: string
  readonly cloud: string
  readonly decides: readonly TeacherLine[]
  readonly safetyLabel: string
  readonly safety: readonly string[]
  readonly rules: string
  readonly closing: string
  readonly phone: TeacherLine
  readonly signature: string
  readonly slip: {
    readonly title: string
    /** Of which evening it is, once it is cut off. */
    readonly night: string
    readonly child: string
    readonly fetched: string
    /** What parents are asked about photos; null where the school does not ask it. */
    readonly photos: { readonly text: string; readonly answers: readonly string[] } | null
    readonly signed: string
  }
}

const BRING = ['clothes', 'lamps', 'glasses', 'names'] as const
const SAFETY = ['sun', 'adults', 'steps'] as const

/** A letter that a school may give to parents: what is agreed stands there, the rest is a line for a pen. */
export function classLetter({ words }: Viewer, subject: PrintSubject): ClassLetter {
  const { night, visit } = subject
  return {
    title: words.say('letter.title'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    greeting: words.say('letter.greeting'),
    opening: words.say('letter.opening', { date: words.date(night.date), place: night.site.name }),
    facts: facts(words, subject),
    bringLabel: words.say('letter.bring'),
    bring: BRING.map((key) => words.say(`letter.bring-${key}`)),
    cloudLabel: words.say('letter.cloud'),
    cloud: words.say('letter.cloud-text'),
    decides: (['decides', 'decidesBy', 'announced'] as const).map((key) => line(words, key, visit[key])),
    safetyLabel: words.say('letter.safety'),
    safety: SAFETY.map((key) => words.say(`letter.safety-${key}`, { count: visit.adultsPerGroup ?? 1 })),
    rules: words.say('visit.rules'),
    closing: words.say('letter.closing'),
    phone: line(words, 'phone', ''),
    signature: words.say('letter.signature'),
    slip: slip(words, subject),
  }
}

const line = (words: Words, key: string, value: string): TeacherLine => ({
  label: words.say(`letter.${key}`),
  value: value === '' ? null : value,
})

function facts(words: Words, { night, visit, siteNotes }: PrintSubject): TeacherLine[] {
  const found = schoolClassOf(night)
  const time = (at: Date): string => words.time(at, night.site.zone)
  const hours = found && words.say('page.from-to', { from: time(found.startsAt), to: time(found.endsAt) })
  return [
    line(words, 'school', visit.school),
    line(words, 'hours', hours ?? ''),
    line(words, 'meet', visit.meet),
    line(words, 'fetch', visit.fetch),
    line(words, 'toilets', visit.toilets || siteNotes.toilets),
  ]
}

const slip = (words: Words, { night, visit: { asksPhotos } }: PrintSubject): ClassLetter['slip'] => ({
  title: words.say('letter.slip'),
  night: words.say('print.where-when', { place: night.title, date: words.date(night.date) }),
  child: words.say('letter.child'),
  fetched: words.say('letter.fetched'),
  photos: asksPhotos
    ? { text: words.say('letter.photos'), answers: [words.say('letter.photos-yes'), words.say('letter.photos-no')] }
    : null,
  signed: words.say('letter.signed'),
})
