import type { Check, CheckLine } from '../../tours/check.ts'
import type { Station } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { checkRow } from './check.ts'
import { type FieldGround, stateOf } from './field-ground.ts'
import { remarkText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { endText } from './stop-line.ts'

/** The half-hour check of one station, as a slip of paper would say it. */
export interface SlipPart {
  readonly summary: string
  readonly rows: readonly { readonly name: string; readonly text: string }[]
  readonly changesLabel: string
  readonly changes: readonly string[]
  readonly note: string | null
  /** True while the check is still worked out. */
  readonly isLater: boolean
}

/** Name, until, direction and fists of this station's targets, and what changed since the check before; null without a programme. */
export function slipPart(
  viewer: Viewer,
  ground: FieldGround,
  station: Station,
  { at, check }: { readonly at: Date; readonly check: Check | null },
): SlipPart | null {
  const { words } = viewer
  const { night, tour } = ground
  if (tour === undefined || station.telescope === null) return null
  const lines = (check?.lines ?? []).filter(({ stationId }) => stationId === station.id)
  const changes = (check?.changes ?? []).filter(({ values }) => values?.station === station.name)
  return {
    summary: words.say('field.slip', { time: words.time(at, night.site.zone) }),
    rows: lines.map((line) => slipRow(viewer, ground, line)),
    changesLabel: words.say('page.check-changes'),
    changes: changes.map((change) => remarkText(words, change)),
    isLater: check === null,
    note: check === null ? words.say('field.else-later') : lines.length === 0 ? words.say('check.none') : null,
  }
}

function slipRow(viewer: Viewer, { night, names }: FieldGround, line: CheckLine): SlipPart['rows'][number] {
  const { name, when, direction } = checkRow(viewer, night, line, names)
  const { words } = viewer
  const isGone = line.group === 'gone'
  return {
    name,
    text: words.say(isGone ? 'field.slip-gone' : 'field.slip-row', {
      group: words.say(`check.${line.group}`),
      when,
      direction,
    }),
  }
}

/** All that one station shows tonight. */
export interface EveningPart {
  readonly summary: string
  readonly rows: readonly { readonly time: string; readonly text: string }[]
}

/** What was shown there, and what the plan has for it from now on; null when there is neither. */
export function eveningPart(words: Words, ground: FieldGround, station: Station): EveningPart | null {
  const { night, tour, names } = ground
  const { zone } = night.site
  const state = stateOf(ground, station.id)
  const shown = (state?.shown ?? []).map(({ targetKey, fromAt, toAt }) => ({
    time: words.time(fromAt, zone),
    text: words.say(toAt === null ? 'field.evening-now' : 'field.evening-past', { name: names.nameOf(targetKey) }),
  }))
  const ahead = (tour?.stops ?? [])
    .filter(({ stationId, startsAt }) => stationId === station.id && state?.next && startsAt >= state.next.atAt)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
    .map((stop) => ({
      time: words.time(stop.startsAt, zone),
      text: words.say('field.evening-ahead', {
        name: targetName(words, names, stop.targetKey, stop.aim),
        until: endText(words, night, stop),
      }),
    }))
  const rows = [...shown, ...ahead]
  return rows.length === 0 ? null : { summary: words.say('field.evening'), rows }
}
