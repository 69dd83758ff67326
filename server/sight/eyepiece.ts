import type { Conditions } from './conditions.ts'
import { framesDeg } from './frame.ts'
import { type Ocular, type Optics, type View, viewThrough } from './optics.ts'
import { highestPower } from './power.ts'
import { prepare, type Sighting, sighting } from './sighting.ts'
import type { SkyGeometry } from './sky-brightness.ts'
import type { Subject } from './subject.ts'

export interface BestView {
  readonly ocularIndex: number
  readonly view: View
  readonly sighting: Sighting
}

const CLOSE_POWER = 110 // the middle of 80 to 150 for a part of the Moon; common practice, no source
const AS_GOOD = 0.97

interface Option {
  readonly ocularIndex: number
  readonly view: View
  readonly score: number
}

/**
 * The eyepiece to use: of those that frame the thing and stay under the highest useful power, the lowest that shows it
 * nearly as well as the best (of a planet the highest); of the Moon `close` the one nearest to 110 times. Where none frames it the widest is taken, where
 * all are too strong the weakest. Throws without an eyepiece.
 */
export function bestView(
  subject: Subject,
  geometry: SkyGeometry,
  optics: Optics,
  oculars: readonly Ocular[],
  conditions: Conditions,
  aim: 'whole' | 'close',
): BestView {
  const views = oculars.map((ocular, ocularIndex) => ({ ocularIndex, view: viewThrough(optics, ocular) }))
  const usable = atLeastOne(views, ({ view }) => view.powerX <= highestPower(optics, conditions), weaker)
  const options =
    aim === 'close' && subject.kind === 'moon' ? closest(usable) : best(usable, subject, geometry, conditions)
  const [chosen] = options
  if (chosen === undefined) throw new RangeError('A view needs at least one eyepiece.')
  const { ocularIndex, view } = chosen
  return { ocularIndex, view, sighting: sighting(subject, geometry, view, conditions) }
}

type Choice = Omit<Option, 'score'>
const weaker = (a: Choice, b: Choice): number => a.view.powerX - b.view.powerX
const wider = (a: Choice, b: Choice): number => b.view.trueFieldDeg - a.view.trueFieldDeg

/** Those that hold, or, where none does, the first by the order given. */
function atLeastOne(
  choices: readonly Choice[],
  holds: (choice: Choice) => boolean,
  order: (a: Choice, b: Choice) => number,
): readonly Choice[] {
  const good = choices.filter(holds)
  return good.length > 0 ? good : choices.toSorted(order).slice(0, 1)
}

const closest = (choices: readonly Choice[]): readonly Choice[] =>
  choices.toSorted((a, b) => offClose(a.view) - offClose(b.view))

const offClose = ({ powerX }: View): number => Math.abs(Math.log(powerX / CLOSE_POWER))

function best(
  choices: readonly Choice[],
  subject: Subject,
  geometry: SkyGeometry,
  conditions: Conditions,
): readonly Choice[] {
  const framing = atLeastOne(choices, ({ view }) => view.trueFieldDeg >= framesDeg(subject), wider)
  const scored: readonly Option[] = framing.map((choice) => {
    const { chance, view } = prepare(subject, choice.view, conditions)(geometry)
    return { ...choice, score: chance * view }
  })
  const top = Math.max(...scored.map(({ score }) => score))
  const good = scored.filter(({ score }) => score >= AS_GOOD * top).toSorted(weaker)
  // A small disc shows as a disc only when it is large: a dot looks the same at every low power.
  return subject.kind === 'planet' ? good.reverse() : good
}
