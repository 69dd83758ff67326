import { OWN_KINDS } from '../../tours/own-object.ts'
import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { kindText } from './cards.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Removal {
  readonly action: string
  readonly text: string
  readonly label: string
}

interface OwnForm {
  readonly title: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly fields: readonly Field[]
  readonly cometLabel: string
  readonly comet: readonly Field[]
  readonly appealLabel: string
  readonly appeal: readonly Field[]
  readonly save: string
}

export interface OwnObjectsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly objects: readonly {
    readonly name: string
    readonly kind: string
    readonly facts: readonly string[]
    readonly removal: Removal | null
  }[]
  readonly emptyText: string
  /** Null for whoever may not enter anything. */
  readonly form: OwnForm | null
}

export interface OwnObjectsSubject {
  readonly objects: readonly ShowObject[]
  readonly state: FormState
}

/** The comets and stars that the host entered, and the form for another. */
export function ownObjectsPage(viewer: Viewer, { objects, state }: OwnObjectsSubject): OwnObjectsPage {
  const { words, mayHost } = viewer
  return {
    sheet: daySheet(viewer, words.say('own.title'), null),
    title: words.say('own.title'),
    intro: words.say('own.intro'),
    objects: objects.map((object) => ({
      name: object.name,
      kind: kindText(words, object),
      facts: facts(words, object),
      removal: mayHost ? removal(words, object) : null,
    })),
    emptyText: words.say(mayHost ? 'own.empty' : 'own.empty-visitor'),
    form: mayHost ? form(words, state) : null,
  }
}

function facts(words: Words, object: ShowObject): readonly string[] {
  const { raDeg, decDeg, magnitude, majorArcmin, condensation, appeal, appealReason } = object
  const coma = majorArcmin !== null && condensation !== null
  return [
    words.say('own.place', { ra: words.number(raDeg ?? 0, 2), dec: words.number(decDeg ?? 0, 2) }),
    words.say('own.magnitude-is', { magnitude: words.number(magnitude ?? 0, 1) }),
    ...(coma ? [words.say('own.coma-is', { arcmin: words.number(majorArcmin, 1), condensation })] : []),
    words.say('own.appeal-is', { appeal: words.number(appeal, 2), reason: appealReason }),
  ]
}

const removal = (words: Words, { key, name }: ShowObject): Removal => ({
  action: `/extras/${key}/remove`,
  text: words.say('own.remove'),
  label: words.say('own.remove-which', { name }),
})

function form(words: Words, state: FormState): OwnForm {
  const fields = mainFields(words, state)
  const comet = cometFields(words, state)
  const appeal = appealFields(words, state)
  return {
    title: words.say('own.add'),
    action: '/extras',
    problems: problemList(words, state, [...fields, ...comet, ...appeal]),
    fields,
    cometLabel: words.say('own.comet'),
    comet,
    appealLabel: words.say('own.delight'),
    appeal,
    save: words.say('own.save'),
  }
}

function mainFields(words: Words, state: FormState): readonly Field[] {
  const { text, number, choice } = formFields(words, state)
  const kinds = OWN_KINDS.map((kind) => ({ value: kind, text: words.say(`kind.${kind}`) }))
  return [
    text('name', { label: words.say('own.name') }),
    choice('kind', { label: words.say('own.kind') }, kinds),
    text('raDeg', { label: words.say('own.ra'), hint: words.say('own.ra-hint') }),
    text('decDeg', { label: words.say('own.dec'), hint: words.say('own.dec-hint') }),
    number('magnitude', { label: words.say('own.magnitude'), hint: words.say('own.magnitude-hint') }),
  ]
}

function cometFields(words: Words, state: FormState): readonly Field[] {
  const { number } = formFields(words, state)
  return [
    number('comaArcmin', { label: words.say('own.coma'), hint: words.say('own.coma-hint') }),
    number('condensation', { label: words.say('own.condensation'), hint: words.say('own.condensation-hint') }),
  ]
}

function appealFields(words: Words, state: FormState): readonly Field[] {
  const { text, number } = formFields(words, state)
  return [
    number('appeal', { label: words.say('own.appeal'), hint: words.say('own.appeal-hint') }),
    text('appealReason', { label: words.say('own.reason'), hint: words.say('own.reason-hint'), isWide: true }),
  ]
}
