import { type FactorRange, type NewcomerFactor, newcomerFactor, type Trial } from '../sight/newcomer.ts'
import { marginsOf } from '../sight/newcomer-margin.ts'
import type { View } from '../sight/optics.ts'
import { eveningSky } from './evening.ts'
import { conditionsOf, type EveningChance, eveningChance } from './evening-chance.ts'
import { standing } from './fold.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night, Station } from './night.ts'
import { geometryAtStep, stepAt } from './sky-at.ts'
import { subjectOf } from './subject.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Setup } from './tour.ts'

/** A night with all its marks; its stations are all that it has ever had, for a mark outlives a change of the row. */
export interface MarkedNight {
  readonly night: Night
  readonly marks: readonly Mark[]
}

/** A word of the field at one telescope, and what the model gave for it. */
export interface FieldTrial extends Trial {
  readonly telescopeId: string
}

/** The newcomer factor of one telescope at a site. */
export interface TelescopeFactor extends NewcomerFactor {
  readonly telescopeId: string
  readonly name: string
}

/** What the marks of a site say of its newcomers, all telescopes together and each by itself. */
export interface SiteLearning {
  readonly site: NewcomerFactor
  readonly telescopes: readonly TelescopeFactor[]
  /** Standing marks of what people saw, those of which the model can say nothing included; and the nights they are of. */
  readonly marks: number
  readonly nights: number
}

/** The factor that the host has taken for new nights at a site, with the marks that told it and when that was. */
export interface FactorInUse extends FactorRange {
  readonly marks: number
  readonly setAt: Date
}

interface Seen {
  readonly mark: Mark
  readonly targetKey: string
  readonly outcome: Trial['outcome']
}

/** The marks of who saw what that nobody has taken back, in the server's order. */
export const seenMarks = (marks: readonly Mark[]): readonly Seen[] =>
  standing(marks)
    .flatMap((mark) => {
      const seen = payloadOf('seen', mark)
      return seen === null ? [] : [{ mark, targetKey: seen.targetKey, outcome: seen.who }]
    })
    .sort((a, b) => a.mark.seq - b.mark.seq)

/**
 * Each mark of who saw what with the margins that the model gave at that station, for that thing, at that moment, with
 * the settings of that night. Left out is what the model has no answer for: no telescope, a thing that is not on the
 * list or never up in the public hours, a moment outside the evening or with the thing down.
 */
export function trialsOf({ night, marks }: MarkedNight, objects: readonly ShowObject[]): readonly FieldTrial[] {
  const seen = seenMarks(marks)
  const keys = new Set(seen.map(({ targetKey }) => targetKey))
  const looked = objects.filter(({ key }) => keys.has(key))
  if (looked.length === 0) return []
  const sky = eveningSky(night, looked)
  const table = eveningChance(sky, night, looked)
  const conditions = conditionsOf(night)
  return seen.flatMap(({ mark, targetKey, outcome }) => {
    const station = night.stations.find(({ id }) => id === mark.stationId)
    const index = sky.targetKeys.indexOf(targetKey)
    const object = looked[index]
    const subject = object === undefined ? null : subjectOf(object, sky)
    const view = station === undefined ? null : viewOf(table, station, targetKey)
    const step = Math.round(stepAt(sky, mark.happenedAt))
    if (!station?.telescope || subject === null || view === null || step < 0 || step >= sky.count) return []
    const geometry = geometryAtStep(sky, index, step)
    if (geometry.altitudeDeg <= 0) return []
    const margins = marginsOf(subject, geometry, view, conditions)
    return [{ telescopeId: station.telescope.id, thing: targetKey, outcome, ...margins }]
  })
}

/** The tube and eyepiece in which a station shows a thing; null when it never can that night. */
function viewOf(table: EveningChance, { id, telescope }: Station, targetKey: string): View | null {
  const [row, column] = [table.stationIds.indexOf(id), table.candidates.findIndex((c) => c.targetKey === targetKey)]
  const setup = row < 0 || column < 0 ? null : (table.setups[row * table.candidates.length + column] ?? null)
  return telescope === null || setup === null ? null : viewIn(telescope, setup)
}

function viewIn({ tubes }: Telescope, { tubeId, powerX, trueFieldDeg }: Setup): View | null {
  const optics = tubes.find(({ id }) => id === tubeId)
  return optics === undefined ? null : { powerX, trueFieldDeg, exitPupilMm: optics.apertureMm / powerX, optics }
}

/** The factor of a site and of each telescope that has marks there, by name. */
export function siteLearning(nights: readonly MarkedNight[], trials: readonly FieldTrial[]): SiteLearning {
  const kit = new Map<string, string>()
  for (const { night } of nights) {
    for (const { telescope } of night.stations) if (telescope !== null) kit.set(telescope.id, telescope.name)
  }
  const used = [...kit].filter(([id]) => trials.some(({ telescopeId }) => telescopeId === id))
  const counts = nights.map(({ marks }) => seenMarks(marks).length)
  return {
    site: newcomerFactor(trials),
    telescopes: used
      .map(([telescopeId, name]) => ({
        telescopeId,
        name,
        ...newcomerFactor(trials.filter((trial) => trial.telescopeId === telescopeId)),
      }))
      .sort((a, b) => a.name.localeCompare(b.name)),
    marks: counts.reduce((sum, count) => sum + count, 0),
    nights: counts.filter((count) => count > 0).length,
  }
}
