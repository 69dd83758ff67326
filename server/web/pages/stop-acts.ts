import type { Night } from '../../tours/night.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import { STOP_ACTS } from '../../tours/wish-stops.ts'
import { type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** What the host may do with one stop, each a form of its own that works without scripts. */
export interface StopActs {
  readonly summary: string
  readonly action: string
  readonly stop: string
  readonly buttons: readonly { readonly act: string; readonly text: string }[]
  readonly swap: {
    readonly id: string
    readonly label: string
    readonly text: string
    readonly options: readonly { readonly value: string; readonly text: string }[]
  } | null
}

/** A stop in one word of a form: its station and the instant of its start. */
const stopWord = ({ stationId, startsAt }: Pick<Stop, 'stationId' | 'startsAt'>): string =>
  `${stationId} ${startsAt.toISOString()}`

/** The acts on a stop of the programme that the row goes by; null for whoever may not change it, and for a station that is gone. */
export function stopActs(
  { words, mayHost }: Viewer,
  { night, names }: { readonly night: Night; readonly names: Names },
  tour: Tour,
  stop: Stop,
): StopActs | null {
  const isInRow = (id: string): boolean => night.stations.some((station) => station.id === id)
  if (!mayHost || !isInRow(stop.stationId)) return null
  const others = tour.stops.filter((other) => other !== stop && isInRow(other.stationId))
  const nameOf = ({ targetKey, aim }: Stop): string => targetName(words, names, targetKey, aim)
  return {
    summary: words.say('wish.change', { target: nameOf(stop) }),
    action: `/nights/${night.id}/wishes/stop`,
    stop: stopWord(stop),
    buttons: STOP_ACTS.filter((act) => act !== 'swap').map((act) => ({ act, text: words.say(`wish.act-${act}`) })),
    swap:
      others.length === 0
        ? null
        : {
            id: `swap-${stopWord(stop).replace(/[^\w-]/g, '-')}`,
            label: words.say('wish.swap-with'),
            text: words.say('wish.act-swap'),
            options: others.map((other) => ({
              value: stopWord(other),
              text: words.say('wish.swap-option', {
                target: nameOf(other),
                station: stationName(night, names, other.stationId),
                time: words.time(other.startsAt, night.site.zone),
              }),
            })),
          },
  }
}
