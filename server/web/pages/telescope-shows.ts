import type { ShownTube, ShownView, TelescopeShows } from '../../tours/shows.ts'
import { MOON_ARCMIN } from '../../tours/shows-remarks.ts'
import type { Words } from '../../words/words.ts'
import type { Field } from './form.ts'
import { remarkText } from './say.ts'

interface ShownRow {
  readonly name: string
  readonly cells: readonly { readonly head: string; readonly text: string }[]
  readonly remarks: string
}

/** What a telescope shows: for each tube its limits and a table of all that can be put into it, and what is missing. */
export interface ShowsPart {
  readonly title: string
  /** The night, place or sky that it is for. */
  readonly sky: string
  /** Where another is chosen; null inside a form that asks for it itself. */
  readonly choose: { readonly action: string; readonly field: Field; readonly button: string } | null
  readonly tubes: readonly {
    readonly title: string
    readonly limits: readonly string[]
    readonly heads: readonly string[]
    readonly remarksHead: string
    readonly rows: readonly ShownRow[]
  }[]
  readonly gap: string
}

interface ShowsSubject extends Pick<ShowsPart, 'sky' | 'choose'> {
  readonly shows: TelescopeShows
}

export function showsPart(words: Words, { shows, sky, choose }: ShowsSubject): ShowsPart {
  return {
    title: words.say('kit.shows'),
    sky,
    choose,
    tubes: shows.tubes.map((tube) => tubePart(words, tube)),
    gap: remarkText(words, shows.gap),
  }
}

const HEADS = ['power', 'field', 'pupil', 'star', 'split'] as const

function tubePart(words: Words, shown: ShownTube): ShowsPart['tubes'][number] {
  const isHand = shown.views.some(({ driftSec }) => driftSec !== null)
  const heads = [...HEADS, ...(isHand ? (['drift'] as const) : [])]
  const headTexts = heads.map((head) => words.say(`kit.head-${head}`))
  return {
    title: shown.tube.name,
    limits: limitTexts(words, shown),
    heads: [words.say('kit.head-eyepiece'), ...headTexts],
    remarksHead: words.say('kit.head-words'),
    rows: shown.views.map((view) => ({
      name: remarkText(words, view.label),
      cells: heads.map((head, i) => ({ head: headTexts[i] ?? '', text: CELLS[head](words, view) })),
      remarks: view.remarks.map((remark) => remarkText(words, remark)).join(' '),
    })),
  }
}

const DRIFT_STEP_SEC = 10

const CELLS: Readonly<Record<(typeof HEADS)[number] | 'drift', (words: Words, shown: ShownView) => string>> = {
  power: (words, { view }) => words.say('kit.power', { power: words.number(view.powerX) }),
  field: (words, { view: { trueFieldDeg } }) =>
    words.say('kit.field', {
      degrees: words.number(trueFieldDeg, 2),
      moons: words.number((trueFieldDeg * 60) / MOON_ARCMIN, 1),
    }),
  pupil: (words, { view }) => words.say('kit.mm', { mm: words.number(view.exitPupilMm, 1) }),
  star: (words, { starMag }) => words.number(starMag, 1),
  split: (words, { splitArcsec }) => words.say('kit.arcsec', { arcsec: words.number(splitArcsec, 1) }),
  drift: (words, { driftSec }) =>
    words.say('kit.seconds', { seconds: words.number(Math.round((driftSec ?? 0) / DRIFT_STEP_SEC) * DRIFT_STEP_SEC) }),
}

function limitTexts(words: Words, shown: ShownTube): string[] {
  const { lightGrasp, lowestPowerX, highestPowerX, starMag, splitArcsec } = shown
  const power = { low: words.number(Math.ceil(lowestPowerX)), high: words.number(Math.floor(highestPowerX)) }
  return [
    words.say('kit.tube-light', { times: words.number(Number(lightGrasp.toPrecision(2))) }),
    words.say('kit.tube-power', power),
    ...(starMag === null ? [] : [words.say('kit.tube-star', { mag: words.number(starMag, 1) })]),
    ...(splitArcsec === null ? [] : [words.say('kit.tube-split', { arcsec: words.number(splitArcsec, 1) })]),
  ]
}
