import type { FieldState, StationNow } from '../../tours/field.ts'
import { isDecisionDue } from '../../tours/go-plan.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { stationHref } from './field-acts.ts'
import { type Names, remarkText } from './say.ts'
import { mayLead, type Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** Something to see to, and where it is done; null where nothing is to be done on a page. */
export interface Attention {
  readonly text: string
  readonly act: { readonly href: string; readonly text: string } | null
}

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
export function attention(viewer: Viewer, subject: AttentionSubject): Attention[] {
  const { night, tour, names, decisionAt } = subject
  const stations = inRow(viewer, subject)
  return [
    ...decisionText(viewer, night, decisionAt),
    ...stations.flatMap((station) => troubleText(viewer, night, station, names)),
    ...stations.flatMap((station) => leaveText(viewer, night, station, names)),
    ...(isAhead(viewer, night) ? [...notices(viewer, night, tour), ...gaps(viewer, night)] : []),
  ]
}

/** True while the plan of a night can still be mended: it is not over and not called off. */
export const isAhead = ({ now }: Pick<Viewer, 'now'>, night: Night): boolean =>
  night.state !== 'off' && now < nightHours(night).closesAt

/** What a telescope lacks is said where telescopes are; all else shows itself in the programme. */
const OF_TELESCOPES: readonly string[] = ['tour.no-chair-station', 'tour.no-children-station']

function notices({ words, mayHost }: Viewer, { id }: Night, tour: Tour | undefined): Attention[] {
  const programme = { href: `/nights/${id}/programme`, text: words.say('page.attention-programme') }
  const telescopes = mayHost ? { href: '/telescopes', text: words.say('page.attention-telescopes') } : null
  return (tour?.notices ?? []).map((notice) => ({
    text: remarkText(words, notice),
    act: OF_TELESCOPES.includes(notice.code) ? telescopes : programme,
  }))
}

function decisionText(viewer: Viewer, night: Night, decisionAt: Date | null): Attention[] {
  if (decisionAt === null || !mayLead(viewer) || !isDecisionDue(night, decisionAt, viewer.now)) return []
  const act = { href: `/nights/${night.id}/go`, text: viewer.words.say('page.step-decide-button') }
  return [{ text: viewer.words.say('go.attention', { time: viewer.words.time(decisionAt, night.site.zone) }), act }]
}

/** The stations of a row that stands or is about to. */
function inRow({ now }: Viewer, { night, field, out }: AttentionSubject): readonly StationNow[] {
  const { opensAt, closesAt } = nightHours(night)
  if (now.getTime() < opensAt.getTime() - 3_600_000 || now >= closesAt) return []
  return field?.stations.filter(({ stationId }) => !out.includes(stationId)) ?? []
}

function troubleText({ words }: Viewer, night: Night, { stationId, trouble }: StationNow, names: Names): Attention[] {
  if (!trouble) return []
  const station = stationName(night, names, stationId)
  const text = words.say('page.attention-trouble', { station, what: words.say(`page.trouble-${trouble}`) })
  return [{ text, act: stationAct(words, night, stationId, station) }]
}

const stationAct = (words: Viewer['words'], night: Night, stationId: string, station: string): Attention['act'] => ({
  href: stationHref(night, stationId),
  text: words.say('page.attention-station', { station }),
})

const SOON_MIN = 15

function leaveText({ words, now }: Viewer, night: Night, station: StationNow, names: Names): Attention[] {
  const { showing, untilAt, stationId } = station
  if (!showing || !untilAt || untilAt.getTime() - now.getTime() > SOON_MIN * 60_000) return []
  // That all ends with the night is the next step.
  if (untilAt >= nightHours(night).closesAt) return []
  const values = {
    station: stationName(night, names, stationId),
    target: names.nameOf(showing.targetKey),
    time: words.time(untilAt, night.site.zone),
  }
  const text = words.say(untilAt <= now ? 'page.attention-left' : 'page.attention-leave', values)
  return [{ text, act: stationAct(words, night, stationId, values.station) }]
}

function gaps({ words, mayHost }: Viewer, night: Night): Attention[] {
  if (!mayHost) return []
  const act = { href: `/nights/${night.id}/edit`, text: words.say('page.attention-fill') }
  const alone = night.stations.filter(({ operator }) => operator === '').map(({ name }) => name)
  const people = night.visitors.reduce((sum, half) => sum + half.adults + half.children, 0)
  const texts = [
    ...(alone.length > 0 ? [words.say('page.attention-operator', { stations: words.list(alone) })] : []),
    ...(people === 0 ? [words.say('page.attention-visitors')] : []),
  ]
  return texts.map((text) => ({ text, act }))
}
