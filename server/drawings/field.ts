import type { Place } from '../sky/place.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Tube } from '../tours/telescope.ts'
import type { Setup } from '../tours/tour.ts'
import type { Words } from '../words/words.ts'
import { fieldOnCard } from './field-card.ts'
import { fieldColumn } from './field-column.ts'
import { type Field, fieldOf } from './field-matter.ts'
import { COLUMN, type FieldDrawn, GAP, type Said } from './field-paper.ts'
import { FIELD_FAINTEST_V } from './field-stars.ts'
import type { DrawnView } from './field-view.ts'
import { type Svg, svgPicture } from './svg.ts'
import { middleOf, type SkyStar, type StarsWanted } from './thing-stars.ts'

/** One tube with the eyepiece in it. */
export interface FieldView {
  readonly tube: Tube
  readonly setup: Setup
  readonly eyepieceName: string
  readonly telescopeName: string
}

/**
 * A column has its words below a circle of 60 mm. On a card they stand beside one of 37 mm; where nothing else is drawn on
 * the card they stand below one of 48 mm, as few as on a card.
 */
export type FieldLayout = 'column' | 'card' | 'whole-card'

/** What is drawn: a thing, the stars of the star table around it to V 8, and the one or two tubes that show it from a place at an instant. */
export interface FieldSubject {
  readonly thing: ShowObject
  readonly stars: readonly SkyStar[]
  readonly views: readonly FieldView[]
  readonly at: Date
  readonly zone: string
  readonly place: Place
  readonly layout: FieldLayout
  /** Makes ids of this drawing unlike those of others on the page. */
  readonly idPrefix: string
}

/** The thing once more outside its circle, so many times larger than in it. */
export interface FieldInset {
  readonly times: number
  readonly x: number
  readonly y: number
  readonly pxPerArcmin: number
  readonly halfHighPx: number
  /** What is kept free above and below it. */
  readonly roomPx: number
  readonly drawn: FieldDrawn
}

/** A field circle as it was drawn; directions in degrees clockwise from up on the paper. */
export interface FieldCircle {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly trueFieldDeg: number
  readonly pxPerArcmin: number
  readonly northDeg: number
  /** Where stars leave the field when nothing drives the telescope: west. */
  readonly driftDeg: number
  readonly isMirrored: boolean
  readonly turnedDeg: 0 | 180
  /** What was drawn in it and where. */
  readonly drawn: FieldDrawn
  readonly inset: FieldInset | null
}

interface FieldDrawing {
  readonly svg: Svg
  readonly widthPx: number
  readonly heightPx: number
  /** Sentences to stand below the picture. */
  readonly notes: readonly string[]
  /** What the signs in it mean, where the picture itself does not say so. */
  readonly legend: string | null
  /** One a view, in their order. */
  readonly circles: readonly FieldCircle[]
}

/** Which stars of the star table a field asks for; null where it shows a body that wanders, or has no place. */
export function starsForField(thing: ShowObject, trueFieldDeg: number): StarsWanted | null {
  const middle = thing.body === null && thing.parent === null ? middleOf(thing) : null
  return middle && { ...middle, radiusDeg: trueFieldDeg / 2, limitV: FIELD_FAINTEST_V }
}

/**
 * What will be seen in an eyepiece, to scale and as that tube turns it, for a printed width of 84 mm, or of 170 mm for two
 * tubes side by side (letters of 12.4 points). Null where nobody can draw the thing.
 */
export function fieldDrawing(asked: FieldSubject, words: Words): FieldDrawing | null {
  const { colours } = asked.thing
  const said = colours && ([words.called(colours[0]), words.called(colours[1])] as const)
  const subject = { ...asked, thing: { ...asked.thing, colours: said } }
  const fields = subject.views.flatMap((view) => {
    const field = fieldOf(subject, view, words)
    return field === null ? [] : [{ view, field }]
  })
  if (fields.length === 0) return null
  const draw = subject.layout === 'card' ? fieldOnCard : fieldColumn
  const columns = fields.map(({ view, field }, i) => draw(subject, view, field, i * (COLUMN + GAP), words))
  const widthPx = columns.length * (COLUMN + GAP) - GAP
  const heightPx = Math.ceil(Math.max(...columns.map(({ bottomPx }) => bottomPx)))
  const notes = notesOf(
    subject,
    fields.map(({ field }) => field),
    columns,
  ).map(({ code, values }) => words.say(code, values))
  const svg = svgPicture(
    {
      width: widthPx,
      height: heightPx,
      title: words.say('field-drawing.title', { name: subject.thing.name }),
      description: described(columns, notes),
    },
    ...columns.flatMap((column) => column.svg),
  )
  const legend = columns.map((column) => column.legend).find((it) => it !== null) ?? null
  return { svg, widthPx, heightPx, notes, legend, circles: columns.map(({ circle }) => circle) }
}

const described = (columns: readonly DrawnView[], notes: readonly string[]): string =>
  [
    ...columns.map(({ texts }) => `${texts.join('; ')}.`),
    ...columns.flatMap(({ legend }) => legend ?? []),
    ...notes,
  ].join(' ')

/** The notes of all views, each once: how to hold the paper, what is drawn larger, what dots mean. */
function notesOf({ thing }: FieldSubject, fields: readonly Field[], columns: readonly DrawnView[]): readonly Said[] {
  const said: Said[] = [
    { code: 'field-drawing.note-drift' },
    ...columns.flatMap(({ tooSmall }) => (tooSmall === null ? [] : [{ code: tooSmall, values: { name: thing.name } }])),
    ...fields.flatMap(({ matter }) => matter.notes),
    ...(fields.some(({ neighbours }) => neighbours.length > 0) ? [{ code: 'field-drawing.note-stars' }] : []),
  ]
  return said.filter(({ code }, i) => said.findIndex((it) => it.code === code) === i)
}
