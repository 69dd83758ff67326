import { isKindField, kindsAskedFor, OWN_KINDS, type OwnKind } from '../../tours/own-kinds.ts'
import type { OwnObjectDraft } from '../../tours/own-object.ts'
import { POINTS } from '../../tours/pointing.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { pointText } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

/** A field, and the kinds of which it says something as the script reads them; '' for every kind. */
interface KindOf {
  readonly kinds: string
  readonly field: Field
}

interface OwnGroup {
  readonly id: string
  readonly label: string
  /** Which kinds the group is for; null for all. */
  readonly note: string | null
  readonly kinds: string
  readonly fields: readonly KindOf[]
}

export interface OwnFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly groups: readonly OwnGroup[]
  readonly save: string
  readonly backHref: string
  readonly backText: string
}

interface OwnFormSubject {
  /** The thing's key, or null for a new one. */
  readonly key: string | null
  readonly state: FormState
}

/** The form of one thing of the host's: every field that any kind has, in groups that say for which; a script shows those of the chosen kind. */
export function ownFormPage(viewer: Viewer, { key, state }: OwnFormSubject): OwnFormPage {
  const { words } = viewer
  const title = words.say(key === null ? 'own.add' : 'own.edit')
  const groups = groupsOf(words, state)
  return {
    sheet: daySheet(viewer, title, 'objects', ['page.js', 'own-form.js']),
    title,
    intro: words.say(key === null ? 'own.add-intro' : 'own.edit-intro'),
    action: key === null ? '/extras' : `/extras/${key}`,
    problems: problemList(
      words,
      state,
      groups.flatMap(({ fields }) => fields.map(({ field }) => field)),
    ),
    groups,
    save: words.say('own.save'),
    backHref: '/extras',
    backText: words.say('own.title'),
  }
}

type As = 'text' | 'wide' | 'number' | 'kind' | 'point'
type Asked = readonly [name: keyof OwnObjectDraft, label: string, as: As]

/** Every field in its group; its hint, where there is one, has the key of the label with `-hint` behind it. */
const GROUPS: readonly { readonly id: string; readonly label: string; readonly asked: readonly Asked[] }[] = [
  {
    id: 'what',
    label: 'own.what',
    asked: [
      ['name', 'own.name', 'text'],
      ['kind', 'own.kind', 'kind'],
      ['magnitude', 'own.magnitude', 'number'],
    ],
  },
  {
    id: 'place',
    label: 'own.where',
    asked: [
      ['raDeg', 'own.ra', 'text'],
      ['decDeg', 'own.dec', 'text'],
    ],
  },
  {
    id: 'size',
    label: 'own.size',
    asked: [
      ['majorArcmin', 'own.width', 'number'],
      ['minorArcmin', 'own.height', 'number'],
    ],
  },
  {
    id: 'cluster',
    label: 'kind.open-cluster',
    asked: [
      ['starCount', 'own.stars', 'number'],
      ['brightestStarMag', 'own.brightest', 'number'],
    ],
  },
  {
    id: 'double',
    label: 'kind.double',
    asked: [
      ['secondMagnitude', 'own.second', 'number'],
      ['separationArcsec', 'own.separation', 'number'],
      ['colour', 'own.colour', 'text'],
      ['secondColour', 'own.second-colour', 'text'],
    ],
  },
  { id: 'comet', label: 'kind.comet', asked: [['condensation', 'own.condensation', 'number']] },
  { id: 'pattern', label: 'kind.asterism', asked: [['fieldDeg', 'own.field', 'number']] },
  { id: 'distance', label: 'own.far', asked: [['distanceLy', 'own.distance', 'number']] },
  {
    id: 'pass',
    label: 'own.pass',
    asked: [
      ['fromAt', 'own.from', 'text'],
      ['fromPoint', 'own.from-point', 'point'],
      ['toAt', 'own.to', 'text'],
      ['toPoint', 'own.to-point', 'point'],
    ],
  },
  {
    id: 'delight',
    label: 'own.delight',
    asked: [
      ['appeal', 'own.appeal', 'number'],
      ['appealReason', 'own.reason', 'wide'],
    ],
  },
]

function groupsOf(words: Words, state: FormState): readonly OwnGroup[] {
  const fieldOf = fieldMaker(words, state)
  return GROUPS.map(({ id, label, asked }) => {
    const fields = asked.map((each) => ({ kinds: kindsOf(each[0]).join(' '), field: fieldOf(each) }))
    // A group is for every kind for which one of its fields is.
    const kinds = OWN_KINDS.filter((kind) => asked.some(([name]) => kindsOf(name).includes(kind)))
    return { id: `group-${id}`, label: words.say(label), note: noteOf(words, kinds), kinds: kinds.join(' '), fields }
  })
}

/** The kinds for which a field is; none for one that is for all. */
const kindsOf = (name: string): readonly OwnKind[] => (isKindField(name) ? kindsAskedFor(name) : [])

function fieldMaker(words: Words, state: FormState) {
  const { text, number, choice } = formFields(words, state)
  const kinds = OWN_KINDS.map((kind) => ({ value: kind, text: words.say(`kind.${kind}`) }))
  const points = POINTS.map((point) => ({ value: pointText(words, point), text: pointText(words, point) }))
  return ([name, label, as]: Asked): Field => {
    const hint = `${label}-hint`
    const ask = { label: words.say(label), ...(words.knows(hint) && { hint: words.say(hint) }), isWide: as === 'wide' }
    if (as === 'kind') return choice(name, ask, kinds)
    if (as === 'point') return choice(name, ask, [{ value: '', text: words.say('own.choose') }, ...points])
    return as === 'number' ? number(name, ask) : text(name, ask)
  }
}

function noteOf(words: Words, kinds: readonly OwnKind[]): string | null {
  const [first] = kinds
  if (first === undefined) return null
  const others = OWN_KINDS.filter((kind) => !kinds.includes(kind))
  const named = (some: readonly OwnKind[]) => words.list(some.map((kind) => words.say(`kind.${kind}`)))
  if (others.length < 3) return words.say('own.not-for', { kinds: named(others) })
  return words.say('own.only-for', { kinds: named(kinds) })
}
