import type { Night } from '../../tours/night.ts'
import { showsOf } from '../../tours/shows.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, isBegun, type ProblemList, problemList } from './form.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { type GrowingRows, growing } from './site-rows.ts'
import { skyChoice, skyField } from './sky-choice.ts'
import {
  besideFirst,
  eyepieceRow,
  type FormRow,
  factorRow,
  fieldsInRows,
  optionsOf,
  tubeRow,
} from './telescope-form-rows.ts'
import { finderFields, keptFields } from './telescope-kit-fields.ts'
import { type ShowsPart, showsPart } from './telescope-shows.ts'

export interface TelescopeFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly problems: ProblemList | null
  readonly fields: readonly Field[]
  readonly tubesLabel: string
  readonly tubesHint: string
  readonly tubes: readonly FormRow[]
  readonly eyepiecesLabel: string
  readonly eyepiecesHint: string
  readonly eyepieces: readonly FormRow[]
  readonly eyepieceRows: GrowingRows
  readonly isFactorsOpen: boolean
  readonly factorsLabel: string
  readonly factorsHint: string
  readonly factors: readonly FormRow[]
  readonly factorRows: GrowingRows
  readonly heightsLabel: string
  readonly heights: readonly Field[]
  readonly finderLabel: string
  readonly isFinderOpen: boolean
  readonly finder: readonly Field[]
  readonly keptLabel: string
  readonly isKeptOpen: boolean
  readonly kept: readonly Field[]
  readonly moreLabel: string
  readonly isMoreOpen: boolean
  readonly more: readonly Field[]
  readonly showsLabel: string
  readonly showsHint: string
  readonly skyField: Field
  readonly showsButton: string
  /** What it shows as it is typed; null until someone asks. */
  readonly shows: ShowsPart | null
  readonly save: string
}

export interface TelescopeFormSubject {
  /** The telescope's id, or null for a new one. */
  readonly id: string | null
  readonly state: FormState
  readonly rows: { readonly eyepieces: number; readonly factors: number }
  readonly sites: readonly Site[]
  readonly nights: readonly Night[]
  /** The telescope as it is typed, where it is asked what it shows. */
  readonly asked: Telescope | null
}

const TUBES = 2
const FIRSTS = { tubes: 'tubes.0.apertureMm', eyepieces: 'eyepieces.0.focalLengthMm' }
export const MOST_EYEPIECES = 12
export const MOST_FACTORS = 3

/** The form of a telescope: its mount, one or two tubes, eyepieces, Barlows and reducers, and how high it stands. */
export function telescopeFormPage(viewer: Viewer, subject: TelescopeFormSubject): TelescopeFormPage {
  const { words } = viewer
  const { id, rows } = subject
  const state = besideFirst(subject.state, FIRSTS)
  const title = words.say(id === null ? 'page.new-telescope' : 'page.edit-telescope')
  const fields = mountFields(words, state)
  const tubes = Array.from({ length: TUBES }, (_, index) => tubeRow(words, state, index))
  const eyepieces = Array.from({ length: rows.eyepieces }, (_, index) => eyepieceRow(words, state, index))
  const factors = Array.from({ length: rows.factors }, (_, index) => factorRow(words, state, index))
  const heights = heightFields(words, state)
  const more = limitFields(words, state)
  const finder = finderFields(words, state)
  const kept = keptFields(words, state)
  const parts = fieldsInRows(words, [...tubes, ...eyepieces, ...factors])
  return {
    sheet: daySheet(viewer, title, 'telescopes'),
    ...labels(words),
    title,
    intro: words.say(id === null ? 'page.new-telescope-intro' : 'page.edit-telescope-intro'),
    action: id === null ? '/telescopes' : `/telescopes/${id}`,
    problems: problemList(words, state, [...fields, ...parts, ...heights, ...finder, ...kept, ...more]),
    fields,
    tubes,
    eyepieces,
    eyepieceRows: growing('eyepieceRows', rows.eyepieces, MOST_EYEPIECES, words.say('page.more-eyepieces')),
    factors,
    isFactorsOpen: factors.length > 1 || isBegun(factors.flatMap((row) => row.fields)),
    factorRows: growing('factorRows', rows.factors, MOST_FACTORS, words.say('page.more-factors')),
    heights,
    finder,
    isFinderOpen: isBegun(finder),
    kept,
    isKeptOpen: isBegun(kept),
    more,
    isMoreOpen: more.some(({ isInvalid }) => isInvalid),
    ...showing(viewer, subject),
  }
}

function showing(viewer: Viewer, { id, state, sites, nights, asked }: TelescopeFormSubject) {
  const { words } = viewer
  const choice = skyChoice(viewer, { sites, nights, telescopeId: id, asked: state.values.sky })
  const { said, conditions } = choice.chosen
  return {
    skyField: skyField(words, choice, state),
    shows: asked && showsPart(words, { shows: showsOf(asked, conditions), sky: said, choose: null }),
  }
}

const labels = (words: Words) => ({
  tubesLabel: words.say('page.tubes'),
  tubesHint: words.say('page.tubes-hint'),
  eyepiecesLabel: words.say('page.eyepieces'),
  eyepiecesHint: words.say('page.eyepieces-hint'),
  factorsLabel: words.say('page.factors'),
  factorsHint: words.say('page.factors-hint'),
  heightsLabel: words.say('page.heights'),
  finderLabel: words.say('kit.finder'),
  keptLabel: words.say('kit.kept'),
  showsLabel: words.say('kit.shows-form'),
  showsHint: words.say('kit.shows-form-hint'),
  showsButton: words.say('kit.shows-button'),
  moreLabel: words.say('page.more-telescope'),
  save: words.say('page.save-telescope'),
})

function mountFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const mounts = optionsOf(words, 'mount', ['altaz-driven', 'altaz-hand', 'equatorial'])
  return [
    form.text('name', {
      label: words.say('page.telescope-name'),
      hint: words.say('page.telescope-name-hint'),
      isWide: true,
    }),
    form.choice('mount', { label: words.say('page.mount'), fallback: 'altaz-driven', isWide: true }, mounts),
  ]
}

function heightFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const reaches = optionsOf(words, 'reach', ['side', 'folded', 'no'])
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [
    form.number('axisLowCm', ask('page.axis-low')),
    form.number('axisHighCm', ask('page.axis-high')),
    form.choice('chairReach', { label: words.say('page.chair'), fallback: 'no', isWide: true }, reaches),
  ]
}

function limitFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(key), hint: words.say(`${key}-hint`) })
  return [form.number('floorDeg', ask('page.floor')), form.number('ceilingDeg', ask('page.ceiling'))]
}
