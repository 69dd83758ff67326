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
  readonly names: Names
  /** When it is to be decided whether the night takes place; null where the next step says so already. */
  readonly decisionAt: Date | null
}

/** What needs the host, most pressing first: whether the night takes place, trouble in the field, what must move soon, rules that gave way, gaps in the plan. */
export function attention(viewer: Viewer, subject: AttentionSubject): string[] {
  const { night, tour, field, names, decisionAt } = subject
  const stations = isOpen(viewer, night) ? (field?.stations ?? []) : []
  return [
    ...decisionText(viewer, night, decisionAt),
    ...stations.flatMap((station) => troubleText(viewer, night, station, names)),
    ...stations.flatMap((station) => leaveText(viewer, night, station, names)),
    ...(tour?.notices ?? []).map((notice) => remarkText(viewer.words, notice)),
    ...gaps(viewer, night),
  ]
}

function decisionText(viewer: Viewer, night: Night, decisionAt: Date | null): string[] {
  if (decisionAt === null || !mayLead(viewer) || !isDecisionDue(night, decisionAt, viewer.now)) return []
  return [viewer.words.say('go.attention', { time: viewer.words.time(decisionAt, night.site.zone) })]
}

function isOpen({ now }: Viewer, night: Night): boolean {
  const { opensAt, closesAt } = nightHours(night)
  return now.getTime() >= opensAt.getTime() - 3_600_000 && now < closesAt
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
