import type { ToldWish } from '../../desk/wishes.ts'
import { quarterHours, wallClock } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ObjectHit } from '../../tours/target.ts'
import { THING_GROUP_NAMES } from '../../tours/wish.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import type { Names } from './say.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { conflictText, costText, wishText } from './wish-text.ts'

interface WishLine {
  readonly text: string
  readonly cost: string | null
  readonly conflict: string | null
  readonly takeBack: { readonly action: string; readonly text: string } | null
}

interface WishForm {
  readonly id: string
  readonly action: string
  readonly title: string
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly fields: readonly Field[]
  readonly save: string
}

export interface WishesPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly intro: string
  readonly problems: ProblemList | null
  readonly wishes: readonly WishLine[]
  readonly wishesLabel: string
  readonly emptyText: string | null
  readonly build: { readonly action: string; readonly text: string; readonly note: string } | null
  readonly search: {
    readonly action: string
    readonly title: string
    readonly query: string
    readonly queryLabel: string
    readonly searchText: string
    readonly noneText: string | null
  } | null
  readonly forms: readonly WishForm[]
}

interface WishesSubject {
  readonly night: Night
  readonly hasTour: boolean
  readonly told: readonly ToldWish[]
  readonly names: Names
  readonly query: string
  /** What telescopes may be given among what answers to the query. */
  readonly hits: readonly ObjectHit[]
  readonly state: FormState
}

/** What the host wishes of the night's programme, what each wish costs, and for the host the forms to wish. */
export function wishesPage(viewer: Viewer, subject: WishesSubject): WishesPage {
  const { words, mayHost } = viewer
  const { night, hasTour, told, state } = subject
  const forms = mayHost ? formsOf(words, subject) : []
  return {
    sheet: nightSheet(viewer, words.say('wish.title-of', { title: night.title }), { night, hasTour, here: 'wishes' }),
    nightTitle: night.title,
    title: words.say('wish.title'),
    intro: words.say(mayHost ? 'wish.intro' : 'wish.intro-visitor'),
    problems: refusal(words, state, forms),
    wishes: told.map((wish) => wishLine(viewer, subject, wish)),
    wishesLabel: words.say('wish.list'),
    emptyText: told.length === 0 ? words.say('wish.none') : null,
    build: mayHost
      ? { action: `/nights/${night.id}/programme`, text: words.say('wish.build'), note: words.say('wish.build-note') }
      : null,
    search: mayHost ? searchOf(words, subject) : null,
    forms,
  }
}

/** Why a wish was not kept, and what would resolve it; each sentence leads to its field. */
function refusal(words: Words, { problems }: FormState, forms: readonly WishForm[]): ProblemList | null {
  if (problems.length === 0) return null
  const fields = forms.flatMap((form) => form.fields)
  return {
    title: words.say('wish.refused'),
    items: problems.map(({ field, key, values }) => {
      const found = fields.find(({ name }) => name === field)
      const message = words.say(key, values)
      // What contradicts a wish is a whole sentence; what is wrong with a field needs its name.
      const isOfField = found !== undefined && key.startsWith('problem.')
      return {
        href: `#${found?.id ?? 'main'}`,
        text: isOfField ? words.say('page.form-problem', { field: found.label, message }) : message,
      }
    }),
  }
}

function wishLine({ words, mayHost }: Viewer, { night, names }: WishesSubject, told: ToldWish): WishLine {
  const action = `/nights/${night.id}/wishes/${told.wish.id}/back`
  return {
    text: wishText(words, night, names, told.wish),
    cost: costText(words, names, told),
    conflict: conflictText(words, told.conflict),
    takeBack: mayHost ? { action, text: words.say('wish.take-back') } : null,
  }
}

function searchOf(words: Words, { night, query, hits }: WishesSubject): WishesPage['search'] {
  return {
    action: `/nights/${night.id}/wishes`,
    title: words.say('wish.search-title'),
    query,
    queryLabel: words.say('wish.search-label'),
    searchText: words.say('wish.search'),
    noneText: query !== '' && hits.length === 0 ? words.say('wish.search-none', { query }) : null,
  }
}

/** The form for a thing that was looked up, and the one for what a station is for. */
function formsOf(words: Words, subject: WishesSubject): WishForm[] {
  const { night, hits } = subject
  const hasTelescopes = night.stations.some(({ telescope }) => telescope !== null)
  return [
    ...(hits.length > 0 ? [thingForm(words, subject)] : []),
    ...(hasTelescopes ? [purposeForm(words, subject)] : []),
  ]
}

const WHATS = ['ask', 'pin', 'only', 'bar'] as const

function thingForm(words: Words, { night, query, hits, state }: WishesSubject): WishForm {
  const form = formFields(words, state)
  const anywhere = { value: '', text: words.say('wish.any-station') }
  const times = quarterHours(night).map((at) => wallClock(at, night.site.zone))
  const timeOptions = times.map((time) => ({ value: time, text: time }))
  return {
    id: 'form',
    action: `/nights/${night.id}/wishes`,
    title: words.say('wish.thing-title'),
    hidden: [{ name: 'q', value: query }],
    fields: [
      form.choice(
        'targetKey',
        { label: words.say('wish.thing') },
        hits.map(({ key, name }) => ({ value: key, text: words.called(name) })),
      ),
      form.choice(
        'what',
        { label: words.say('wish.what') },
        WHATS.map((what) => ({ value: what, text: words.say(`wish.what-${what}`) })),
      ),
      form.choice('stationId', { label: words.say('wish.station'), hint: words.say('wish.station-hint') }, [
        anywhere,
        ...telescopeOptions(night),
      ]),
      form.choice(
        'startsAt',
        { label: words.say('wish.from'), hint: words.say('wish.time-hint') },
        timeOptions.slice(0, -1),
      ),
      form.choice('endsAt', { label: words.say('wish.to'), fallback: times.at(-1) ?? '' }, timeOptions.slice(1)),
    ],
    save: words.say('wish.save'),
  }
}

function purposeForm(words: Words, { night, state }: WishesSubject): WishForm {
  const form = formFields(words, state)
  return {
    id: 'purpose',
    action: `/nights/${night.id}/wishes`,
    title: words.say('wish.purpose-title'),
    hidden: [{ name: 'what', value: 'purpose' }],
    fields: [
      form.choice('purposeStation', { label: words.say('wish.purpose-station') }, telescopeOptions(night)),
      form.choice(
        'group',
        { label: words.say('wish.group') },
        [...THING_GROUP_NAMES, 'moon' as const].map((name) => ({ value: name, text: words.say(`wish.group-${name}`) })),
      ),
    ],
    save: words.say('wish.save'),
  }
}

const telescopeOptions = ({ stations }: Night): readonly { readonly value: string; readonly text: string }[] =>
  stations.flatMap(({ id, name, telescope }) => (telescope === null ? [] : [{ value: id, text: name }]))
