import { POINTS } from '../../tours/pointing.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'
import { pointText } from './say.ts'

export const FEWEST_GLOWS = 2
export const MOST_GLOWS = 8
export const MOST_CORNERS = 72

/** Rows of the form: of glow, and of a skyline that was measured at its own corners; null for one by compass points. */
export interface SiteRowCounts {
  readonly glows: number
  readonly corners: number | null
}

export interface SkylineRow {
  /** The compass point, or null where the direction is a field of its own. */
  readonly point: string | null
  readonly direction: Field | null
  readonly height: Field
  readonly name: Field
}

/** A part of a form that grows by a row: the hidden count of its rows, and the button, null when it is full. */
export interface GrowingRows {
  readonly name: string
  readonly count: string
  readonly moreText: string | null
}

/** `count` rows of at most `most`; `text` stands on the button. */
export const growing = (name: string, count: number, most: number, text: string): GrowingRows => ({
  name,
  count: String(count),
  moreText: count < most ? text : null,
})

/** The rows of the skyline: sixteen compass points, or `corners` corners whose direction can be changed. */
export function skylineRows(words: Words, state: FormState, corners: number | null): SkylineRow[] {
  const form = formFields(words, state)
  return Array.from({ length: corners ?? POINTS.length }, (_, index) => {
    const point = corners === null ? pointText(words, index) : null
    const said = point ?? words.say('page.skyline-corner', { row: index + 1 })
    return {
      point,
      direction:
        point === null
          ? form.text(`horizon.${index}.azimuthDeg`, { label: words.say('page.skyline-direction-at', { point: said }) })
          : null,
      height: form.text(`horizon.${index}.altitudeDeg`, {
        label: words.say('page.skyline-height-at', { point: said }),
      }),
      name: form.text(`horizon.${index}.name`, { label: words.say('page.skyline-name-at', { point: said }) }),
    }
  })
}

/** The rows of glow: from where to where, and how much brighter. */
export function glowRows(words: Words, state: FormState, glows: number): { readonly fields: readonly Field[] }[] {
  const form = formFields(words, state)
  return Array.from({ length: glows }, (_, index) => {
    const label = (part: string) => ({ label: words.say(`page.glow-${part}-at`, { row: index + 1 }) })
    return {
      fields: [
        form.text(`glow.${index}.fromDeg`, label('from')),
        form.text(`glow.${index}.toDeg`, label('to')),
        form.number(`glow.${index}.brighterMag`, label('brighter')),
      ],
    }
  })
}

export const fieldsOf = ({ direction, height, name }: SkylineRow): Field[] =>
  direction ? [direction, height, name] : [height, name]
