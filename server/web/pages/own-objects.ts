import type { Night } from '../../tours/night.ts'
import type { OwnThing } from '../../tours/own-object.ts'
import { passOf } from '../../tours/own-pass.ts'
import type { Words } from '../../words/words.ts'
import { kindText } from './card-face.ts'
import { type FormState, type ProblemList, problemList } from './form.ts'
import { ownFacts, passLines } from './own-facts.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Adder {
  readonly href: string
  readonly text: string
}

interface Link extends Adder {
  readonly label: string
}

interface Button {
  readonly action: string
  readonly text: string
  readonly label: string
}

interface OwnRow {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly facts: readonly string[]
  readonly links: readonly Link[]
  readonly button: Button | null
}

export interface OwnObjectsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  /** What was just done, or null. */
  readonly done: string | null
  readonly problems: ProblemList | null
  readonly add: readonly Adder[]
  readonly groups: readonly { readonly title: string | null; readonly rows: readonly OwnRow[] }[]
  readonly emptyText: string | null
}

interface OwnObjectsSubject {
  readonly things: readonly OwnThing[]
  readonly nights: readonly Night[]
  /** How many things an import has just added; null for none. */
  readonly added: number | null
  readonly problems: FormState['problems']
}

/** Everything that the host entered: things for the telescopes, what passes over, and what was taken off the list. */
export function ownObjectsPage(viewer: Viewer, { things, nights, added, problems }: OwnObjectsSubject): OwnObjectsPage {
  const { words, mayHost } = viewer
  const rows = (some: readonly OwnThing[]) => some.map((thing) => row(viewer, thing, nights))
  const listed = things.filter(({ isListed }) => isListed).sort(byName)
  const group = (title: string | null, some: readonly OwnThing[]) =>
    some.length === 0 ? [] : [{ title: title && words.say(title), rows: rows(some) }]
  const retired = things.filter(({ isListed }) => !isListed).sort(byName)
  return {
    sheet: daySheet(viewer, words.say('own.title'), 'objects'),
    title: words.say('own.title'),
    intro: words.say('own.intro'),
    done: added === null ? null : words.say('own.added', { count: added }),
    problems: problemList(words, { values: {}, problems }, []),
    add: mayHost ? adders(words) : [],
    groups: [
      ...group(
        null,
        listed.filter(({ draft }) => passOf(draft) === null),
      ),
      ...group('own.passes', listed.filter(({ draft }) => passOf(draft) !== null).sort(byTime)),
      ...(mayHost ? group('own.retired', retired) : []),
    ],
    emptyText: listed.length > 0 ? null : words.say(mayHost ? 'own.empty' : 'own.empty-visitor'),
  }
}

const byName = (a: OwnThing, b: OwnThing): number => a.draft.name.localeCompare(b.draft.name)
const byTime = (a: OwnThing, b: OwnThing): number => (a.draft.fromAt ?? '').localeCompare(b.draft.fromAt ?? '')

const adders = (words: Words): readonly Adder[] => [
  { href: '/extras/new', text: words.say('own.add') },
  { href: '/extras/import', text: words.say('own.import') },
  { href: '/extras/file', text: words.say('carry.things-file') },
  { href: '/extras/file/import', text: words.say('carry.things-title') },
]

function row({ words, mayHost }: Viewer, thing: OwnThing, nights: readonly Night[]): OwnRow {
  const { key, object, draft, isListed } = thing
  return {
    id: key,
    name: draft.name,
    kind: kindText(words, object),
    facts: [...passLines(words, thing, nights), ...ownFacts(words, thing)],
    links: mayHost && isListed ? links(words, thing) : [],
    button: mayHost ? button(words, thing) : null,
  }
}

const links = (words: Words, { key, draft: { name } }: OwnThing): readonly Link[] => [
  { href: `/extras/${key}/edit`, text: words.say('own.change'), label: words.say('own.change-which', { name }) },
  { href: `/objects/${key}/words`, text: words.say('own.words'), label: words.say('own.words-which', { name }) },
]

const button = (words: Words, { key, isListed, draft: { name } }: OwnThing): Button =>
  isListed
    ? { action: `/extras/${key}/remove`, text: words.say('own.remove'), label: words.say('own.remove-which', { name }) }
    : { action: `/extras/${key}/back`, text: words.say('own.back'), label: words.say('own.back-which', { name }) }
