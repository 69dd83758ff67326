import type { Conditions } from '../sight/conditions.ts'
import type { Prepared } from '../sight/sighting.ts'
import type { BodyKey } from '../sky/body.ts'
import type { EveningSky } from './evening.ts'
import { conditionsOf } from './evening-chance.ts'
import { showpiecesOf } from './missing-showpieces.ts'
import type { Night } from './night.ts'
import { whyNotOf } from './offered.ts'
import { bestMoment, bestSetup, type Moment, momentsOf, type Steps } from './setup-choice.ts'
import { subjectOf } from './subject.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'

/** A showpiece counts as seen when half of the newcomers and more see it. */
const GOOD_CHANCE = 0.5
/** With a view that was chosen on another evening less than this is not looked at again (a choice; the best view gains less). */
const HOPELESS_CHANCE = 0.2
const BARE_EYE_PLANETS: readonly BodyKey[] = ['mercury', 'venus', 'mars', 'jupiter', 'saturn']

/** Eyepieces chosen on an evening before, by telescope and thing, so that a year is not chosen anew each night. */
export type ChosenViews = Map<string, Prepared>

/** One evening with its row and sky, on steps that all lie in the public hours. */
interface DateNight {
  readonly night: Night
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
}

/** The planets for bare eyes that some telescope of the row can be turned to in the public hours, in their order from the Sun. */
export function planetsUp({ night, sky, objects }: DateNight): readonly BodyKey[] {
  const mounts = mountsOf(night)
  return BARE_EYE_PLANETS.filter((planet) => {
    const index = objects.findIndex(({ body }) => body === planet)
    return index >= 0 && mounts.some((mount) => openSteps({ sky, site: night.site, mount }, index).length > 0)
  })
}

/** Keys of the showpieces that half of the newcomers see in some telescope of the row, the most appealing first. */
export function showpiecesSeen(date: DateNight, views: ChosenViews): readonly string[] {
  const conditions = conditionsOf(date.night)
  return showpiecesOf(date.night, date.sky, date.objects)
    .filter((object) => isSeen(date, object, conditions, views))
    .map(({ key }) => key)
}

const mountsOf = ({ stations }: Night): readonly Telescope[] =>
  stations.flatMap(({ telescope }) => (telescope === null ? [] : [telescope]))

const openSteps = (gate: Parameters<typeof whyNotOf>[0], index: number): readonly number[] => {
  const whyNot = whyNotOf(gate, index)
  return Array.from({ length: gate.sky.count }, (_, step) => step).filter((step) => whyNot(step) === null)
}

function isSeen(
  { night, sky, objects }: DateNight,
  object: ShowObject,
  conditions: Conditions,
  views: ChosenViews,
): boolean {
  const index = objects.indexOf(object)
  const last = sky.count - 1
  const steps: Steps = { from: 0, to: last, opens: 0, closes: last }
  const moments = momentsOf(sky, index, steps, conditions)
  return mountsOf(night).some((mount) => {
    const open = openSteps({ sky, site: night.site, mount }, index)
    const placed = moments.filter(({ step }) => open.includes(step))
    const best = bestMoment(placed, sky, mount, steps)
    return best !== null && isSeenThen({ sky, object, conditions, views, mount, best })
  })
}

interface Asked {
  readonly sky: EveningSky
  readonly object: ShowObject
  readonly conditions: Conditions
  readonly views: ChosenViews
  readonly mount: Telescope
  readonly best: Moment
}

function isSeenThen({ sky, object, conditions, views, mount, best }: Asked): boolean {
  const name = `${mount.id}/${object.key}`
  const chosen = views.get(name)?.(best.geometry, best.backdrop).chance
  if (chosen !== undefined && (chosen >= GOOD_CHANCE || chosen < HOPELESS_CHANCE)) return chosen >= GOOD_CHANCE
  const subject = subjectOf(object, sky)
  const setup = subject && bestSetup(mount, subject, 'whole', best, conditions)
  if (setup === null) return false
  if (object.body === null) views.set(name, setup.ask)
  return setup.ask(best.geometry, best.backdrop).chance >= GOOD_CHANCE
}
