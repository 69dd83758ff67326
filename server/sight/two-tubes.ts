import type { Conditions } from './conditions.ts'
import { type BestView, highestPower } from './eyepiece.ts'
import { type Ocular, type Optics, viewThrough } from './optics.ts'
import { type ChanceAndView, chanceAndView, sighting } from './sighting.ts'
import type { SkyGeometry } from './sky-brightness.ts'
import type { Subject } from './subject.ts'

/** A tube of a mount that carries two, and what can still be put into it. */
export interface FreeTube {
  readonly optics: Optics
  readonly oculars: readonly Ocular[]
}

/** One look wide, one look close; `beside` is the second tube's share of the two. */
export interface WideAndClose {
  readonly wide: BestView
  readonly close: BestView
  readonly beside: BestView
}

// Choices: a second look must be worth its half of a visitor's time, and be another one.
const USEFUL_CHANCE = 0.5
const USEFUL_VIEW = 0.3
const OTHER_FIELD = 1.4

/**
 * The wide and the close view of a thing in two tubes on one mount: the first as chosen, the second with what is left
 * to put into it, its field at least 1.4 times wider or narrower. Null where the second does not show the thing to half
 * of the newcomers, or only the same again. Of several the second look that shows most, at an equal show the weakest.
 */
export function wideAndClose(
  subject: Subject,
  geometry: SkyGeometry,
  first: BestView,
  second: FreeTube,
  conditions: Conditions,
): WideAndClose | null {
  const [found] = second.oculars
    .map((ocular, ocularIndex) => ({ ocularIndex, view: viewThrough(second.optics, ocular) }))
    .filter(({ view }) => view.powerX <= highestPower(second.optics, conditions) && isOther(view, first.view))
    .map((option) => ({ ...option, shows: chanceAndView(subject, geometry, option.view, conditions) }))
    .filter(({ shows }) => shows.chance >= USEFUL_CHANCE && shows.view >= USEFUL_VIEW)
    .sort((a, b) => meritOf(b.shows) - meritOf(a.shows) || a.view.powerX - b.view.powerX)
  if (found === undefined) return null
  const { ocularIndex, view } = found
  const beside = { ocularIndex, view, sighting: sighting(subject, geometry, view, conditions) }
  const isWider = beside.view.trueFieldDeg > first.view.trueFieldDeg
  return isWider ? { wide: beside, close: first, beside } : { wide: first, close: beside, beside }
}

type Field = Pick<BestView['view'], 'trueFieldDeg'>

const isOther = (a: Field, b: Field): boolean =>
  Math.max(a.trueFieldDeg / b.trueFieldDeg, b.trueFieldDeg / a.trueFieldDeg) >= OTHER_FIELD

const meritOf = ({ chance, view }: ChanceAndView): number => chance * view
