import { type LineNow, lineNow } from '../tours/line-now.ts'
import type { Desk } from './desk.ts'

/** The lines of a night by the evening's clock, with or without a programme. */
export const lineNowOf = (
  { nights, tours, marks }: Pick<Desk, 'nights' | 'tours' | 'marks'>,
  nightId: string,
): LineNow =>
  lineNow({
    night: nights.find(nightId),
    stops: tours.current(nightId)?.stops ?? [],
    field: marks.field(nightId),
    marks: marks.since(nightId, 0),
  })
