import { QUARTER_PX, QUARTERS_DEG, skylineQuarter } from '../../drawings/skyline-quarter.ts'
import type { MessageValues } from '../../errors.ts'
import { POINT_DEG } from '../../tours/pointing.ts'
import type { Site } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, isBegun } from './form.ts'
import { pointText } from './say.ts'
import { fieldsOf, type GrowingRows, growing, MOST_CORNERS, type SkylineRow, skylineRows } from './site-rows.ts'

/** What the host is told above the table of the skyline. */
export interface SkylineNote {
  readonly key: string
  readonly values: MessageValues
}

/** A quarter of the compass as a picture that takes a tap: the field that is sent has the pixel from its upper left. */
interface TapPicture {
  readonly id: string
  readonly name: string
  readonly src: string
  readonly alt: string
  readonly widthPx: number
  readonly heightPx: number
}

/** The part of a site's form about trees and roofs: pictures to tap, a list to paste, and the table in which both arrive. */
export interface SkylinePart {
  readonly label: string
  readonly hint: string
  readonly notes: readonly string[]
  readonly tapHint: string
  readonly pictures: readonly TapPicture[]
  readonly listLabel: string
  readonly isListOpen: boolean
  readonly fileLabel: string
  readonly list: Field
  /** What is wrong with the list, each line by its number. */
  readonly wrong: readonly string[]
  readonly takeText: string
  readonly tableLabel: string
  /** True where the table holds a corner, or something wrong. */
  readonly isTableOpen: boolean
  readonly pointLabel: string
  readonly heightLabel: string
  readonly nameLabel: string
  readonly rows: readonly SkylineRow[]
  readonly corners: GrowingRows | null
}

interface SkylineSubject {
  readonly state: FormState
  /** Rows of corners; null for a skyline by compass points. */
  readonly corners: number | null
  /** As much of what was typed as can be drawn. */
  readonly drawn: Site['horizon']
  readonly notes: readonly SkylineNote[]
}

export function skylinePart(words: Words, { state, corners, drawn, notes }: SkylineSubject): SkylinePart {
  const rows = skylineRows(words, state, corners)
  const wrong = state.problems.filter(({ field }) => field === 'skylineList')
  const list = formFields(words, state).text('skylineList', {
    label: words.say('skyline.list'),
    hint: words.say('skyline.list-hint'),
  })
  return {
    label: words.say('page.skyline'),
    hint: words.say(corners === null ? 'page.skyline-hint' : 'page.skyline-corners-hint'),
    notes: notes.map(({ key, values }) => words.say(key, values)),
    tapHint: words.say('skyline.tap-hint'),
    pictures: QUARTERS_DEG.map((fromDeg) => tapPicture(words, drawn, fromDeg)),
    listLabel: words.say('skyline.by-list'),
    isListOpen: list.value !== '',
    fileLabel: words.say('own.file'),
    list,
    wrong: wrong.map(({ key, values }) => words.say(key, values)),
    takeText: words.say('skyline.take'),
    tableLabel: words.say('skyline.by-table'),
    isTableOpen: corners !== null || isBegun(rows.flatMap(fieldsOf)),
    pointLabel: words.say('page.skyline-point'),
    heightLabel: words.say('page.skyline-height'),
    nameLabel: words.say('page.skyline-name'),
    rows,
    corners: corners === null ? null : growing('cornerRows', corners, MOST_CORNERS, words.say('page.more-rows')),
  }
}

function tapPicture(words: Words, drawn: Site['horizon'], fromDeg: (typeof QUARTERS_DEG)[number]): TapPicture {
  const { svg } = skylineQuarter(drawn, fromDeg, words)
  const [from, to] = [fromDeg, fromDeg + 90].map((deg) => pointText(words, deg / POINT_DEG))
  return {
    id: `quarter-${fromDeg}`,
    name: `tap.${fromDeg}`,
    src: `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`,
    alt: words.say('skyline.tap-alt', { from: from ?? '', to: to ?? '' }),
    widthPx: QUARTER_PX.width,
    heightPx: QUARTER_PX.height,
  }
}
