import { wrap180 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { Sight } from './beside-sights.ts'
import type { EveningSky } from './evening.ts'
import { apartDeg, stepAt, targetAtStep } from './sky-at.ts'
import type { ObjectKind, ShowObject } from './target.ts'
import type { Remark, Stop } from './tour.ts'

interface PointersInput {
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
  /** Name of a station of the row by its id. */
  readonly nameOf: (stationId: string) => string
  /** What the telescopes show in the half hour. */
  readonly shown: readonly Stop[]
}

/** What leads from a sight to what a telescope shows now: the thing itself, or something near. */
export interface Pointer {
  readonly isSame: boolean
  /** What the telescope shows. */
  readonly targetKey: string
  readonly remark: Remark
}

// Choices.
const NEAR_DEG = 13
const CLOSE_DEG = 7
const NARROW_DEG = 8
const LEADS: readonly ObjectKind[] = ['star', 'red-star', 'double', 'planet']

/** True for what leads on to what stands near it: points, and patterns that are not too wide to be near anything. */
const isLead = ({ kind, fieldDeg }: ShowObject): boolean =>
  LEADS.includes(kind) || (kind === 'asterism' && (fieldDeg ?? 0) <= NARROW_DEG)

/** How a sight leads to what the telescopes show; null where it leads to nothing. */
export function pointerOf(sight: Sight, at: Date, input: PointersInput): Pointer | null {
  const { shown, nameOf } = input
  const same = shown.find(({ targetKey }) => targetKey === sight.object.key)
  if (same !== undefined)
    return {
      isSame: true,
      targetKey: same.targetKey,
      remark: { code: 'beside.shown-at', values: { station: nameOf(same.stationId) } },
    }
  return isLead(sight.object) ? nearPointer(sight, at, input) : null
}

function nearPointer(sight: Sight, at: Date, { sky, objects, shown, nameOf }: PointersInput): Pointer | null {
  const here = placeOfSight(sight, at)
  const near = shown
    .flatMap(({ stationId, targetKey }) => {
      const targetIndex = sky.targetKeys.indexOf(targetKey)
      const object = objects.find(({ key }) => key === targetKey)
      if (targetIndex < 0 || object === undefined || object.kind === 'moon') return []
      const there = targetAtStep(sky, targetIndex, stepAt(sky, at))
      return [{ stationId, targetKey, name: object.name, there, apart: apartDeg(here, there) }]
    })
    .filter(({ apart }) => apart <= NEAR_DEG)
    .sort((a, b) => a.apart - b.apart)[0]
  if (near === undefined) return null
  const { stationId, targetKey, name, there, apart } = near
  const code = `beside.${apart < CLOSE_DEG ? 'close' : 'fist'}-${sideOf(here, there)}`
  return { isSame: false, targetKey, remark: { code, values: { station: nameOf(stationId), name } } }
}

/** Where a sight stands at an instant. */
export const placeOfSight = ({ sky, targetIndex }: Sight, at: Date): Horizontal =>
  targetAtStep(sky, targetIndex, stepAt(sky, at))

/** On which side of a place another stands, as somebody sees it who faces them. */
function sideOf(here: Horizontal, there: Horizontal): 'above' | 'below' | 'left' | 'right' {
  const upDeg = there.altitudeDeg - here.altitudeDeg
  const turnDeg = wrap180(there.azimuthDeg - here.azimuthDeg) * Math.cos((here.altitudeDeg * Math.PI) / 180)
  if (Math.abs(upDeg) >= Math.abs(turnDeg)) return upDeg > 0 ? 'above' : 'below'
  return turnDeg > 0 ? 'right' : 'left'
}
