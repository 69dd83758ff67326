import { type Backdrop, backdropOf } from '../sight/backdrop.ts'
import type { Conditions } from '../sight/conditions.ts'
import { type BestView, bestView } from '../sight/eyepiece.ts'
import { prepare } from '../sight/sighting.ts'
import type { SkyGeometry } from '../sight/sky-brightness.ts'
import type { Subject } from '../sight/subject.ts'
import { type Chosen, meritOf, setupOf } from './chosen-setup.ts'
import type { EveningSky } from './evening.ts'
import { CYCLE_SEC, cycleAt, looksPerHour, RECENTRE_POWER_X } from './line.ts'
import { geometryAtStep } from './sky-at.ts'
import type { Aim } from './target.ts'
import { type KitOcular, offeredOculars, type Telescope, type Tube } from './telescope.ts'
import type { Setup } from './tour.ts'
import { twoLooks } from './two-looks.ts'

const DARK_SUN_DEG = -10
/** Nothing is reckoned for a target lower than this. */
const LOWEST_DEG = 3

/** First and last step that a table of chances holds, and those of the public hours. */
export interface Steps {
  readonly from: number
  readonly to: number
  readonly opens: number
  readonly closes: number
}

/** A target at one step: where it stands among lights, and what lies behind and before it for every view. */
export interface Moment {
  readonly step: number
  readonly geometry: SkyGeometry
  readonly backdrop: Backdrop
}

/** The steps near the public hours at which a target is up. */
export function momentsOf(
  sky: EveningSky,
  targetIndex: number,
  steps: Steps,
  conditions: Conditions,
): readonly Moment[] {
  const moments: Moment[] = []
  for (let step = steps.from; step <= steps.to; step++) {
    if ((sky.altitudeDeg[targetIndex * sky.count + step] ?? 0) < LOWEST_DEG) continue
    const geometry = geometryAtStep(sky, targetIndex, step)
    moments.push({ step, geometry, backdrop: backdropOf(geometry, conditions) })
  }
  return moments
}

/** The moment of the public hours at which it stands highest below the mount's ceiling, a dark sky first; null when it is down. */
export function bestMoment(
  moments: readonly Moment[],
  sky: EveningSky,
  { ceilingDeg }: Telescope,
  steps: Steps,
): Moment | null {
  let [best, bestScore]: [Moment | null, number] = [null, Number.NEGATIVE_INFINITY]
  for (const moment of moments) {
    if (moment.step < steps.opens || moment.step > steps.closes) continue
    const { altitudeDeg } = moment.geometry
    const isDark = (sky.sunAltitudeDeg[moment.step] ?? 0) < DARK_SUN_DEG
    const score = Math.min(altitudeDeg, 2 * ceilingDeg - altitudeDeg) + (isDark ? 90 : 0)
    if (score > bestScore) [best, bestScore] = [moment, score]
  }
  return best
}

const AS_GOOD = 0.99 // a second look must cost the first nothing that anybody notices (a choice)

/** All eyepieces and, where the mount is pushed by hand, those alone with which the view need not be centred again for everyone. */
const handyOculars = (
  { mount }: Pick<Telescope, 'mount'>,
  { focalLengthMm }: Tube,
  oculars: readonly KitOcular[],
): readonly (readonly KitOcular[])[] =>
  mount === 'altaz-hand'
    ? [oculars, oculars.filter((it) => focalLengthMm / it.focalLengthMm < RECENTRE_POWER_X)]
    : [oculars]

/** The tube and eyepiece that show it best to most people at that moment, or a wide and a close look where both tubes of a mount show it about as well. */
export function bestSetup(
  telescope: Telescope,
  subject: Subject,
  aim: Aim,
  { geometry }: Moment,
  conditions: Conditions,
): Chosen | null {
  let chosen: { readonly best: BestView; readonly setup: Setup } | null = null
  let merit = -1
  const oculars = offeredOculars(telescope)
  for (const tube of telescope.tubes) {
    for (const kept of handyOculars(telescope, tube, oculars)) {
      const best = bestView(subject, geometry, tube, kept, conditions, aim)
      const setup = setupOf(tube, kept, best)
      if (setup === null) continue
      const value = meritOf(best) * looksPerHour(cycleAt(CYCLE_SEC.normal, 0, telescope.mount, setup.powerX))
      if (value <= merit) continue
      merit = value
      chosen = { best, setup }
    }
  }
  if (chosen === null) return null
  const { best, setup } = chosen
  const pair = aim === 'whole' ? twoLooks(telescope, subject, geometry, conditions, AS_GOOD * meritOf(best)) : null
  return pair ?? { setup, beside: null, ask: prepare(subject, best.view, conditions) }
}
