import type { Phone } from '../../db/phones.ts'
import type { MarkKind } from '../tours/mark.ts'

const IN_THE_FIELD: readonly MarkKind[] = [
  'showing',
  'shown',
  'skipped',
  'trouble',
  'seen',
  'timed',
  'counted',
  'clouds',
  'undo',
]
const FOR_THE_NIGHT: readonly MarkKind[] = [...IN_THE_FIELD, 'station', 'accepted', 'dropped']

const RIGHTS: Readonly<Record<Phone['role'], readonly MarkKind[]>> = {
  operator: IN_THE_FIELD,
  helper: IN_THE_FIELD,
  'host-phone': FOR_THE_NIGHT,
  host: FOR_THE_NIGHT,
}

/** True for an act that this role may make, for any station: whoever stands nearest does it. Only who may make an act may take it back. */
export const mayMark = (role: Phone['role'], kind: MarkKind): boolean => RIGHTS[role].includes(kind)
