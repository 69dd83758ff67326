import type { AgainState } from '../../desk/again.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type Option, type ProblemList, problemList } from './form.ts'
import { partLabel, SKY_MAP } from './hole.ts'
import { againHref } from './night-links.ts'
import type { Viewer } from './sheet.ts'

/** What the host knows better than the programme, from clouds to the hours of the night. */
export interface AgainForm {
  readonly action: string
  readonly key: string
  readonly title: string
  /** False while a programme waits, which comes first then. */
  readonly isOpen: boolean
  readonly problems: ProblemList | null
  readonly skyLabel: string
  /** The nine parts of the sky as on a map; ticked is shut. */
  readonly parts: readonly Field[]
  readonly overhead: string
  readonly minutes: Field
  readonly outLabel: string
  readonly out: readonly Field[]
  readonly moreLabel: string
  readonly isMoreOpen: boolean
  readonly more: readonly { readonly label: string; readonly hint: string; readonly fields: readonly Field[] }[]
  readonly note: string
  readonly make: string
}

interface AgainFormSubject {
  readonly night: Night
  readonly state: AgainState
  readonly form: FormState
  readonly newKey: () => string
}

/** The form of what has changed, as it is known or as it was typed. */
export function againForm({ words }: Viewer, subject: AgainFormSubject): AgainForm {
  const { night, state, form, newKey } = subject
  const fields = formFields(words, form)
  const parts = SKY_MAP.map((part) => fields.tick(`shut.${part}`, { label: partLabel(words, part) }))
  const minutes = fields.choice('minutes', { label: words.say('again.minutes') }, minuteOptions(words, subject))
  const out = night.stations.map(({ id, name }) => fields.tick(`out.${id}`, { label: name }))
  const more = moreParts(words, subject)
  const moreFields = more.flatMap((part) => part.fields)
  return {
    action: againHref(night),
    key: newKey(),
    title: words.say('again.ask'),
    isOpen: state.waiting === null || form.problems.length > 0,
    problems: problemList(words, form, [...parts, minutes, ...out, ...moreFields]),
    skyLabel: words.say('again.sky'),
    parts,
    overhead: words.say('hole.overhead-means'),
    minutes,
    outLabel: words.say('again.out'),
    out,
    moreLabel: words.say('again.more'),
    isMoreOpen: form.problems.some(({ field }) => moreFields.some(({ name }) => name === field)),
    more,
    note: words.say(state.hasBegun ? 'again.note-waits' : 'again.note-at-once'),
    make: words.say('again.make'),
  }
}

/** Clouds that were told of before last as they were told, until something else is chosen. */
function minuteOptions(words: Words, { night, state }: AgainFormSubject): Omit<Option, 'isChosen'>[] {
  const { shut, shutUntilAt } = state.news
  const choice = (value: string) => ({ value, text: words.say(`again.minutes-${value}`) })
  const lasting = shutUntilAt
    ? words.say('again.minutes-as-told', { time: words.time(shutUntilAt, night.site.zone) })
    : words.say('again.minutes-open')
  if (shut.length === 0) return ['30', '60', 'open'].map(choice)
  const others = shutUntilAt ? ['30', '60', 'open'] : ['30', '60']
  return [{ value: 'as-told', text: lasting }, ...others.map(choice)]
}

/** What comes up less often than clouds: the line, the people, the hours. */
function moreParts(words: Words, { night, state, form }: AgainFormSubject): AgainForm['more'] {
  const { text, number, choice } = formFields(words, form)
  const { adultsIn, childrenIn } = state.field
  const stations = night.stations.map(({ id, name }) => ({ value: id, text: name }))
  const clock = words.say('page.clock-hint')
  return [
    {
      label: words.say('again.timed'),
      hint: words.say('again.timed-hint'),
      fields: [
        choice('timed.stationId', { label: words.say('again.timed-station') }, [
          { value: '', text: words.say('again.timed-none') },
          ...stations,
        ]),
        number('timed.people', { label: words.say('again.timed-people') }),
        number('timed.seconds', { label: words.say('again.timed-seconds') }),
      ],
    },
    {
      label: words.say('again.people'),
      hint: words.say('again.people-hint', { adults: adultsIn, children: childrenIn }),
      fields: [
        number('adults', { label: words.say('page.visitors-adults') }),
        number('children', { label: words.say('page.visitors-children') }),
      ],
    },
    {
      label: words.say('again.hours'),
      hint: words.say('again.hours-hint'),
      fields: [
        text('opens', { label: words.say('page.night-opens'), hint: clock }),
        text('closes', { label: words.say('page.night-closes'), hint: clock }),
      ],
    },
  ]
}
