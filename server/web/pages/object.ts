import type { NearThing, SourceCounts } from '../../desk/thing-kinds.ts'
import type { Svg } from '../../drawings/svg.ts'
import { angleText, thingDrawing } from '../../drawings/thing.ts'
import type { ShowObject, Story } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { nearPointText } from './bearing.ts'
import { kindText } from './card-face.ts'
import { knownLines, type Labelled, starParts } from './object-known.ts'
import type { ObjectSubject } from './object-subject.ts'
import { type ValueRow, valueRows } from './object-values.ts'
import { type Link, type When, whenOf } from './object-when.ts'
import { whyText } from './own-why.ts'
import { byLamp, daySheet, type Sheet, type Viewer } from './sheet.ts'

export type { ObjectSubject } from './object-subject.ts'

export interface ObjectPage extends When {
  readonly sheet: Sheet
  readonly name: string
  readonly kind: string
  readonly others: string | null
  readonly note: string | null
  /** What will be seen; for a thing without a story what there is to say of its kind. */
  readonly lead: string
  readonly parts: readonly Labelled[]
  readonly why: Labelled | null
  readonly drawing: Svg | null
  readonly drawingNotes: readonly string[]
  readonly knownLabel: string
  readonly known: readonly string[]
  readonly nearLabel: string
  readonly nearNote: string
  readonly near: readonly (Link & { readonly kind: string; readonly where: string })[]
  readonly values: ValueTable | null
  readonly links: readonly Link[]
}

interface ValueTable {
  readonly label: string
  readonly counts: string
  readonly heads: readonly string[]
  readonly rows: readonly ValueRow[]
}

/** All that is known of one thing, apart from any night: its story, its picture, its months, its neighbours, and where each value comes from. */
export function objectPage(viewer: Viewer, subject: ObjectSubject): ObjectPage {
  const { words } = viewer
  const { thing, story } = subject
  const object = 'appeal' in thing ? thing : null
  const drawing = thingDrawing(subject.picture, words)
  const name = words.called(thing.name)
  const sheet = daySheet(viewer, name, 'objects')
  return {
    sheet: subject.look === 'lamp' ? byLamp(sheet) : sheet,
    name,
    kind: thing.kind === 'moon' ? '' : kindText(words, thing),
    others: othersText(words, subject, object),
    note: object?.note ? words.called(object.note) : null,
    lead: story?.see || words.say(object ? `card.about-${object.kind}` : 'object.star-intro'),
    parts: object ? partsOf(words, story) : starParts(words, subject),
    why: object && { label: words.say('object.why'), text: whyText(words, object.appealReason) },
    drawing: drawing?.svg ?? null,
    drawingNotes: drawing?.notes ?? [],
    ...whenOf(viewer, subject, object),
    knownLabel: words.say('object.known'),
    known: object ? knownLines(viewer, subject, object) : [],
    ...nearOf(words, subject.near),
    values: object && subject.sources && valueTable(words, object, subject.sources),
    links: linksOf(viewer, subject, object),
  }
}

const PARTS = ['lookFor', 'how', 'compare', 'answer', 'children', 'more'] as const

const partsOf = (words: Words, story: Story | undefined): readonly Labelled[] =>
  story === undefined
    ? []
    : PARTS.filter((part) => story[part] !== '').map((part) => ({
        label: words.say(`object.part-${part}`),
        text: story[part],
      }))

const SHORT = / [A-Z][A-Za-z]{2}$/

/** Without those that another says in full: `Gamma Cyg` beside `Gamma Cygni`. */
const writtenOut = (names: readonly string[]): readonly string[] =>
  names.filter((name) => !SHORT.test(name) || !names.some((other) => other !== name && other.startsWith(name)))

function othersText(words: Words, { thing: { name }, star }: ObjectSubject, object: ShowObject | null): string | null {
  const all = object?.designations ?? writtenOut(star?.otherNames ?? [])
  const names = all
    .filter((other) => other !== name)
    .map(words.called)
    .filter((other) => other !== words.called(name))
  return names.length === 0 ? null : words.say('object.others', { names: names.join(', ') })
}

const nearOf = (words: Words, near: readonly NearThing[]) => ({
  nearLabel: words.say('object.near'),
  nearNote: words.say('object.near-note'),
  near: near.map(({ object, separationDeg, directionDeg }) => ({
    href: `/objects/${object.key}`,
    text: words.called(object.name),
    kind: words.say(`kind.${object.kind}`),
    where: words.say('object.near-where', {
      angle: angleText(words, 60 * separationDeg),
      point: nearPointText(words, directionDeg),
    }),
  })),
})

const valueTable = (words: Words, object: ShowObject, counts: SourceCounts): ValueTable => ({
  label: words.say('object.values'),
  counts: words.say('object.counts', {
    published: counts.published,
    memory: counts['from memory'],
    computed: counts.computed,
    judgement: counts['our judgement'],
  }),
  heads: ['object.value-name', 'object.value', 'object.value-source'].map((code) => words.say(code)),
  rows: valueRows(words, object),
})

const linksOf = (
  { words, mayHost }: Viewer,
  { thing: { key }, look }: ObjectSubject,
  object: ShowObject | null,
): Link[] => [
  ...(mayHost && object ? [{ href: `/objects/${key}/words`, text: words.say('object.link-words') }] : []),
  { href: '/objects', text: words.say('object.link-list') },
  look === 'lamp'
    ? { href: `/objects/${key}`, text: words.say('object.link-day') }
    : { href: `/objects/${key}?look=lamp`, text: words.say('object.link-lamp') },
  { href: `/api/objects/${key}`, text: words.say('object.link-data') },
]
