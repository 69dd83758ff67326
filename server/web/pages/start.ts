import type { StartPlace } from '../../desk/start.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { placeText } from './place-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface StartPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly problems: ProblemList | null
  readonly fields: readonly Field[]
  /** Which of several places is meant; null while there is nothing to choose. */
  readonly places: Field | null
  /** Of this very form, so that one sent twice makes one evening. */
  readonly key: string
  readonly save: string
  readonly working: string
  readonly other: {
    readonly label: string
    readonly links: readonly { readonly href: string; readonly text: string }[]
  }
}

interface StartSubject {
  readonly state: FormState
  readonly places: readonly StartPlace[]
  readonly key: string
}

/** How a form names a place of the choice. */
export const placeValue = ({ siteId, latitudeDeg, longitudeDeg }: StartPlace): string =>
  siteId ?? `${latitudeDeg},${longitudeDeg}`

/** Three lines of plain words from which a whole evening is made. */
export function startPage(viewer: Viewer, { state, places, key }: StartSubject): StartPage {
  const { words } = viewer
  const [town, ...rest] = lines(words, state)
  const chosen = places.length > 1 ? placeField(words, state, places) : null
  const title = words.say('start.title')
  return {
    sheet: daySheet(viewer, title, 'nights'),
    title,
    intro: words.say('start.intro'),
    problems: problemList(words, state, [...(town ? [town] : []), ...(chosen ? [chosen] : []), ...rest]),
    fields: [...(town ? [town] : []), ...rest],
    places: chosen,
    key,
    save: words.say('start.save'),
    working: words.say('start.working'),
    other: {
      label: words.say('start.other'),
      links: [
        { href: '/sites/new', text: words.say('start.other-site') },
        { href: '/dates', text: words.say('start.other-date') },
        { href: '/telescopes/new', text: words.say('start.other-telescope') },
      ],
    },
  }
}

function lines(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`), isWide: true })
  return [
    form.text('town', ask('start.town')),
    form.text('date', ask('start.date')),
    form.text('kit', ask('start.kit-field')),
  ]
}

const placeField = (words: Words, state: FormState, places: readonly StartPlace[]): Field =>
  formFields(words, state).choice(
    'place',
    { label: words.say('start.place') },
    places.map((place) => ({ value: placeValue(place), text: placeLine(words, place) })),
  )

/** `Springfield, Illinois, United States: 39 degrees 48.1 minutes north ...`. */
const placeLine = (words: Words, place: StartPlace): string =>
  words.say(place.siteId === null ? 'start.place-line' : 'start.place-own', {
    name: [place.name, place.region, place.country].filter(Boolean).join(', '),
    place: placeText(words, place),
  })
