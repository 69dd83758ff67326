import { MOST_LETTERS } from '../../desk/group-text.ts'
import { languageName } from '../../tours/own-words.ts'
import { UNITS } from '../../words/words.ts'
import { cardsAsked } from './card-choice.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { nightSheet } from './night-links.ts'
import type { PaperLink } from './paper.ts'
import { type CopiesAsked, copiesField, MOST_COPIES, type OfferedPiece, printPlan, sheetCount } from './paper-choice.ts'
import { printHref } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import { secondAsked } from './second-language.ts'
import type { Sheet, Viewer } from './sheet.ts'

/** A piece to be chosen: what it is for, its pages, how many copies, and the way to it alone. */
interface PieceChoice {
  /** The field for the copies. */
  readonly field: Field
  readonly title: string
  readonly purpose: string
  readonly pages: string
  readonly alone: PaperLink
}

export interface PapersForm {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly intro: string
  readonly problems: ProblemList | null
  readonly stale: string | null
  readonly action: string
  readonly lookLabel: string
  readonly lookFields: readonly Field[]
  readonly piecesLabel: string
  readonly piecesHint: string
  readonly pieces: readonly PieceChoice[]
  readonly copiesLabel: string
  readonly mostCopies: number
  readonly save: string
  readonly usual: PaperLink & { readonly note: string }
  /** How the group is found again, for the host to say; null for others. */
  readonly group: {
    readonly action: string
    readonly title: string
    readonly field: Field
    readonly save: string
  } | null
}

interface Typed {
  readonly subject: PrintSubject
  readonly state: FormState
}

/** The page on which papers are chosen; without a choice it shows what eight sheets hold. */
export function papersForm(
  viewer: Viewer,
  subject: PrintSubject,
  all: readonly OfferedPiece[],
  copies: CopiesAsked,
  state: FormState = { values: {}, problems: [] },
): PapersForm {
  const { words } = viewer
  const { night, isStale, look } = subject
  const usual = printPlan(all, null, look)
  const chosen = copies ?? Object.fromEntries(usual.pieces.map((piece) => [piece.name, piece.copies]))
  const pieces = all.map((piece) => pieceChoice(viewer, { subject, state }, piece, chosen[piece.name] ?? 0))
  const looks = lookFields(viewer, subject, state)
  const group = viewer.mayHost ? groupForm(viewer, subject, state) : null
  const fields = [...looks, ...pieces.map(({ field }) => field), ...(group ? [group.field] : [])]
  return {
    sheet: nightSheet(viewer, words.say('papers.title-of', { title: night.title }), {
      night,
      hasTour: true,
      here: 'papers',
    }),
    nightTitle: night.title,
    title: words.say('papers.title'),
    intro: words.say('papers.intro'),
    problems: problemList(words, state, fields),
    stale: isStale ? words.say('print.stale') : null,
    action: `/nights/${night.id}/print/tonight`,
    lookLabel: words.say('papers.look'),
    lookFields: looks,
    piecesLabel: words.say('papers.pieces'),
    piecesHint: words.say('papers.pieces-hint'),
    pieces,
    copiesLabel: words.say('papers.copies'),
    mostCopies: MOST_COPIES,
    save: words.say('papers.show'),
    usual: {
      href: printHref(night, 'tonight', look, secondAsked(subject.second)),
      text: words.say('print.tonight'),
      note: words.say('papers.usual', { count: sheetCount(usual.pieces) }),
    },
    group,
  }
}

const groupForm = ({ words }: Viewer, { night, groupText }: PrintSubject, state: FormState): PapersForm['group'] => ({
  action: `/nights/${night.id}/papers/group`,
  title: words.say('papers.group-title'),
  field: formFields(words, state).text('group', {
    label: words.say('papers.group'),
    hint: words.say('papers.group-hint', { maximum: MOST_LETTERS }),
    fallback: groupText,
    isWide: true,
  }),
  save: words.say('papers.group-save'),
})

/** Paper, units, letters, and a second language where there are words in one. */
function lookFields({ words }: Viewer, { look, second }: PrintSubject, state: FormState): Field[] {
  const { language, units } = words.settings
  const values = { ...look, units, second: second.language ?? '', ...state.values }
  const form = formFields(words, { values, problems: state.problems })
  const choice = (name: string, codes: readonly string[]): Field =>
    form.choice(
      name,
      { label: words.say(`papers.${name}`) },
      codes.map((code) => ({ value: code, text: words.say(`papers.${name}-${code}`) })),
    )
  const others = second.languages.filter((code) => code !== language)
  const named = others.map((code) => ({ value: code, text: languageName(code, language) ?? code }))
  const none = { value: '', text: words.say('print.second-none') }
  return [
    choice('paper', ['a4', 'letter']),
    choice('units', UNITS),
    choice('letters', ['normal', 'large']),
    ...(others.length === 0 ? [] : [form.choice('second', { label: words.say('print.second') }, [none, ...named])]),
  ]
}

function pieceChoice({ words }: Viewer, { subject, state }: Typed, piece: OfferedPiece, copies: number): PieceChoice {
  const { night, look, second, cards } = subject
  const { name, title, pages } = piece
  const asked = { ...secondAsked(second), ...(name === 'cards' ? cardsAsked(cards) : {}) }
  return {
    field: formFields(words, state).number(copiesField(name), {
      label: words.say('papers.copies-of', { piece: title }),
      fallback: String(copies),
    }),
    title,
    purpose: words.say(`papers.for-${name}`),
    pages: words.say(look.letters === 'large' ? 'papers.pages-normal' : 'papers.pages', { count: pages }),
    alone: { href: printHref(night, name, look, asked), text: words.say('papers.alone') },
  }
}
