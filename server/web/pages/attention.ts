import type { FieldState, StationNow } from '../../tours/field.ts'
import { isDecisionDue } from '../../tours/go-plan.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { type Names, remarkText } from './say.ts'
import { mayLead, type Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

interface AttentionSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  readonly field: FieldState | undefined
  /** Stations that have left the row: nothing there is in need of anybody. */
  readonly out: readonly string[]
  readonly names: Names
  /** When it is to be decided whether the night takes place; null where the next step says so already. */
  readonly decisionAt: Date | null
}

/** What needs the host, most pressing first: whether the night takes place, trouble in the field, what must move soon, rules that gave way, gaps in the plan. */
export function attention(viewer: Viewer, subject: AttentionSubject): string[] {
  const { night, tour, names, decisionAt } = subject
  const stations = inRow(viewer, subject)
  return [
    ...decisionText(viewer, night, decisionAt),
    ...stations.flatMap((station) => troubleText(viewer, night, station, names)),
    ...stations.flatMap((station) => leaveText(viewer, night, station, names)),
    ...(isAhead(viewer, night) ? [...noticeTexts(viewer, tour), ...gaps(viewer, night)] : []),
  ]
}

/** True while the plan of a night can still be mended: it is not over and not called off. */
export const isAhead = ({ now }: Pick<Viewer, 'now'>, night: Night): boolean =>
  night.state !== 'off' && now < nightHours(night).closesAt

const noticeTexts = ({ words }: Viewer, tour: Tour | undefined): string[] =>
  (tour?.notices ?? []).map((notice) => remarkText(words, notice))

function decisionText(viewer: Viewer, night: Night, decisionAt: Date | null): string[] {
  if (decisionAt === null || !mayLead(viewer) || !isDecisionDue(night, decisionAt, viewer.now)) return []
  return [viewer.words.say('go.attention', { time: viewer.words.time(decisionAt, night.site.zone) })]
}

/** The stations of a row that stands or is about to. */
function inRow({ now }: Viewer, { night, field, out }: AttentionSubject): readonly StationNow[] {
  const { opensAt, closesAt } = nightHours(night)
  if (now.getTime() < opensAt.getTime() - 3_600_000 || now >= closesAt) return []
  return field?.stations.filter(({ stationId }) => !out.includes(stationId)) ?? []
}

function troubleText({ words }: Viewer, night: Night, { stationId, trouble }: StationNow, names: Names): string[] {
  if (!trouble) return []
  return [
    words.say('page.attention-trouble', {
      station: stationName(night, names, stationId),
      what: words.say(`page.trouble-${trouble}`),
    }),
  ]
}

const SOON_MIN = 15

function leaveText({ words, now }: Viewer, night: Night, station: StationNow, names: Names): string[] {
  const { showing, untilAt, stationId } = station
  if (!showing || !untilAt || untilAt.getTime() - now.getTime() > SOON_MIN * 60_000) return []
  // That all ends with the night is the next step.
  if (untilAt >= nightHours(night).closesAt) return []
  const values = {
    station: stationName(night, names, stationId),
    target: names.nameOf(showing.targetKey),
    time: words.time(untilAt, night.site.zone),
  }
  return [words.say(untilAt <= now ? 'page.attention-left' : 'page.attention-leave', values)]
}

function gaps({ words, mayHost }: Viewer, night: Night): string[] {
  if (!mayHost) return []
  const alone = night.stations.filter(({ operator }) => operator === '').map(({ name }) => name)
  const people = night.visitors.reduce((sum, half) => sum + half.adults + half.children, 0)
  return [
    ...(alone.length > 0 ? [words.say('page.attention-operator', { stations: words.list(alone) })] : []),
    ...(people === 0 ? [words.say('page.attention-visitors')] : []),
  ]
}
