import { nightHours } from '../../tours/hours.ts'
import type { Night, Station } from '../../tours/night.ts'
import { ocularsOf } from '../../tours/telescope.ts'
import type { Setup, Stop } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { objectHref } from './night-links.ts'
import { chanceText, leaveByText, type Names, remarkText, targetName, untilText } from './say.ts'
import type { Viewer } from './sheet.ts'

/** One stop of the programme in words. */
export interface StopLine {
  readonly from: string
  readonly when: string
  readonly station: string
  readonly name: string
  /** The page of this object on this night. */
  readonly href: string
  readonly kind: string | null
  readonly chance: string
  readonly until: string
  /** How long it could stay, when that is longer than it does. */
  readonly couldStay: string | null
  readonly setups: readonly string[]
  readonly reasons: readonly string[]
}

const REASONS_SHOWN = 2
const SAID_BY_CHANCE = 'tour.anyone-sees'

/** A stop with its hours, its leave-by, what to put in, and the heaviest reasons for it. */
export function stopLine({ words }: Viewer, night: Night, stop: Stop, names: Names): StopLine {
  const { zone } = night.site
  const station = night.stations.find(({ id }) => id === stop.stationId)
  const kind = names.show(stop.targetKey)?.kind
  return {
    from: words.time(stop.startsAt, zone),
    when: words.say('page.from-to', { from: words.time(stop.startsAt, zone), to: words.time(stop.endsAt, zone) }),
    station: stationName(night, names, stop.stationId),
    name: targetName(words, names, stop.targetKey, stop.aim),
    href: objectHref(night, stop.targetKey),
    kind: kind && kind !== 'moon' ? words.say(`kind.${kind}`) : null,
    chance: chanceText(words, stop.chance),
    until: endText(words, night, stop),
    couldStay: couldStayText(words, stop, zone),
    setups: stop.setups.flatMap((setup) => setupText(words, station, setup)),
    reasons: stop.reasons
      .filter(({ code }) => code !== SAID_BY_CHANCE)
      .slice(0, REASONS_SHOWN)
      .map((reason) => remarkText(words, reason)),
  }
}

/** The name of a station as it stands in the row, or as it stood when it left. */
export const stationName = ({ stations }: Night, names: Names, id: string): string =>
  stations.find((station) => station.id === id)?.name ?? names.nameOf(id)

function couldStayText(words: Words, stop: Stop, zone: string): string | null {
  if (!stop.leaveBy || leaveByText(words, stop, zone)) return null
  return words.say('page.could-stay', { until: untilText(words, stop.leaveBy.at, stop.leaveBy.cause, zone) })
}

/** When a stop ends by the plan, and what hides it then if that is why; or at the closing. */
export function endText(words: Words, night: Night, stop: Stop): string {
  const { zone } = night.site
  const caused = leaveByText(words, stop, zone)
  if (caused) return caused
  if (stop.endsAt >= nightHours(night).closesAt) return words.say('page.until-end')
  return words.say('page.until-time', { time: words.time(stop.endsAt, zone) })
}

/**
 * What to put in: `25 mm wide, 40 times`; the tube is named where a mount carries two. Of a part that the telescope no
 * longer has only the power is known. Nothing for a station without a telescope.
 */
export function setupText(words: Words, station: Station | undefined, setup: Setup): string[] {
  const telescope = station?.telescope
  if (!telescope) return []
  const power = words.number(setup.powerX)
  const ocular = ocularsOf(telescope).find(({ id }) => id === setup.eyepieceId)
  const tube = telescope.tubes.find(({ id }) => id === setup.tubeId)
  if (!ocular || !tube) return [words.say('page.setup-gone', { power })]
  const values = { eyepiece: remarkText(words, ocular.label), tube: tube.name, power }
  return [words.say(telescope.tubes.length > 1 ? 'page.setup-tube' : 'page.setup', values)]
}
