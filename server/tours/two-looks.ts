import type { Conditions } from '../sight/conditions.ts'
import { prepare } from '../sight/sighting.ts'
import type { SkyGeometry } from '../sight/sky-brightness.ts'
import type { Subject } from '../sight/subject.ts'
import { wideAndClose } from '../sight/two-tubes.ts'
import { type Chosen, meritOf, setupOf } from './chosen-setup.ts'
import { type KitOcular, offeredOculars, type Telescope } from './telescope.ts'

/**
 * A wide look through the shorter tube of a mount and a close one through the longer, the better look first; null for a
 * mount with one tube, where no two looks are worth it, or where the better shows less than `leastMerit` (0 to 1).
 */
export function twoLooks(
  telescope: Telescope,
  subject: Subject,
  geometry: SkyGeometry,
  conditions: Conditions,
  leastMerit: number,
): Chosen | null {
  const [shorter, longer] = telescope.tubes.toSorted((a, b) => a.focalLengthMm - b.focalLengthMm)
  if (shorter === undefined || longer === undefined) return null
  const oculars = offeredOculars(telescope)
  const mayPair = (wide: number, close: number) => areApart(oculars[wide], oculars[close])
  const pair = wideAndClose(subject, geometry, { wide: shorter, close: longer }, oculars, conditions, mayPair)
  if (pair === null) return null
  const [first, second] = [
    { best: pair.wide, setup: setupOf(shorter, oculars, pair.wide) },
    { best: pair.close, setup: setupOf(longer, oculars, pair.close) },
  ].toSorted((a, b) => meritOf(b.best) - meritOf(a.best))
  if (!first?.setup || !second?.setup || meritOf(first.best) < leastMerit) return null
  return { setup: first.setup, beside: second.setup, ask: prepare(subject, first.best.view, conditions) }
}

/** One eyepiece, Barlow or reducer is in one tube only. */
function areApart(a: KitOcular | undefined, b: KitOcular | undefined): boolean {
  const parts = a?.id.split('*') ?? []
  return !(b?.id.split('*') ?? []).some((part) => parts.includes(part))
}
