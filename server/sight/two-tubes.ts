import type { Conditions } from './conditions.ts'
import type { BestView } from './eyepiece.ts'
import { framesDeg } from './frame.ts'
import { type Ocular, type Optics, type View, viewThrough } from './optics.ts'
import { highestPower } from './power.ts'
import { chanceAndView, sighting } from './sighting.ts'
import type { SkyGeometry } from './sky-brightness.ts'
import type { Subject } from './subject.ts'

/** One look wide and one look close, through the two tubes of one mount. */
interface WideAndClose {
  readonly wide: BestView
  readonly close: BestView
}

/** The tube of the wide look and that of the close one: the shorter and the longer. */
interface TwoTubes {
  readonly wide: Optics
  readonly close: Optics
}

// Choices: each look must be worth its half of a visitor's time.
const USEFUL_CHANCE = 0.5
const USEFUL_VIEW = 0.6

/**
 * The wide and the close view of a thing: of all ways to put two different eyepieces into the two tubes the one that
 * shows most in both together, the wide look framing the whole of it and the close one only a part: of a thing that both
 * frame, a second look shows nothing else. `mayPair` says whether two eyepieces can be in use at once. Null where no such
 * pair shows at least the shape of the thing to half of the newcomers in both.
 */
export function wideAndClose(
  subject: Subject,
  geometry: SkyGeometry,
  tubes: TwoTubes,
  oculars: readonly Ocular[],
  conditions: Conditions,
  mayPair: (wide: number, close: number) => boolean = (wide, close) => wide !== close,
): WideAndClose | null {
  const looksOf = (optics: Optics) => usefulLooks(subject, geometry, optics, oculars, conditions)
  const wholeDeg = framesDeg(subject)
  const wides = looksOf(tubes.wide).filter(({ view }) => view.trueFieldDeg >= wholeDeg)
  const closes = looksOf(tubes.close).filter(({ view }) => view.trueFieldDeg < wholeDeg)
  const pairs = wides.flatMap((wide) =>
    closes
      .filter((close) => mayPair(wide.ocularIndex, close.ocularIndex))
      .map((close) => ({ wide, close, merit: wide.merit + close.merit })),
  )
  const [best] = pairs.sort((a, b) => b.merit - a.merit || a.close.view.powerX - b.close.view.powerX)
  if (best === undefined) return null
  const seen = ({ ocularIndex, view }: UsefulLook): BestView => ({
    ocularIndex,
    view,
    sighting: sighting(subject, geometry, view, conditions),
  })
  return { wide: seen(best.wide), close: seen(best.close) }
}

interface UsefulLook {
  readonly ocularIndex: number
  readonly view: View
  readonly merit: number
}

function usefulLooks(
  subject: Subject,
  geometry: SkyGeometry,
  optics: Optics,
  oculars: readonly Ocular[],
  conditions: Conditions,
): readonly UsefulLook[] {
  const most = highestPower(optics, conditions)
  return oculars.flatMap((ocular, ocularIndex) => {
    const view = viewThrough(optics, ocular)
    if (view.powerX > most) return []
    const shows = chanceAndView(subject, geometry, view, conditions)
    const isUseful = shows.chance >= USEFUL_CHANCE && shows.view >= USEFUL_VIEW
    return isUseful ? [{ ocularIndex, view, merit: shows.chance * shows.view }] : []
  })
}
