import type { GoNight } from '../../desk/go.ts'
import type { Judged } from '../../tours/go-judge.ts'
import type { Night } from '../../tours/night.ts'
import { kindText, lastsText, limitText, standingText, valueText } from './go-text.ts'
import type { Viewer } from './sheet.ts'

/** One kind of value: what was entered and when, how it stands, and the limit. */
export interface GoLine {
  readonly name: string
  readonly value: string
  readonly standing: string
  /** `known` values are written heavier the worse they are. */
  readonly weight: 'unknown' | 'fine' | 'doubtful' | 'over'
  readonly entered: string | null
  readonly limit: string
}

interface LineSubject {
  readonly night: Night
  readonly go: GoNight
}

/** Weather changes within hours (our choice). */
const OLD_MS = 6 * 3_600_000

/** The line of one kind. */
export function goLine({ words, now }: Viewer, { night, go }: LineSubject, judged: Judged): GoLine {
  const { kind, known } = judged
  const heading = { name: kindText(words, kind), limit: limitText(words, kind, go.limits, go.cloudLimit) }
  const standing = standingText(words, judged)
  if (known === null) return { ...heading, value: '', standing, weight: 'unknown', entered: null }
  const { reading } = known
  const ageMs = Math.max(0, now.getTime() - reading.enteredAt.getTime())
  const values = { time: words.time(reading.enteredAt, night.site.zone), span: lastsText(words, ageMs) }
  const entered = words.say(ageMs >= OLD_MS ? 'go.entered-old' : 'go.entered', values)
  return { ...heading, value: valueText(words, reading), standing, weight: known.standing, entered }
}

/** So many moments are listed. */
const EARLIER = 8

/** What was entered at one time in one line, the newest first; what stands in the table already is there once more, so that the list is whole. */
export function earlierTexts({ words }: Viewer, { night, go }: LineSubject): string[] {
  const times = [...new Set(go.readings.map(({ enteredAt }) => enteredAt.getTime()))].slice(0, EARLIER)
  return times.map((time) => {
    const entered = go.readings.filter(({ enteredAt }) => enteredAt.getTime() === time).toReversed()
    const values = entered.map((it) =>
      words.say('go.value', { name: kindText(words, it.kind), value: valueText(words, it) }),
    )
    const [zone, entering] = [night.site.zone, new Date(time)]
    const when = { time: words.time(entering, zone), date: words.dayAndMonth(entering, zone) }
    return words.say('go.line', { ...when, values: words.list(values) })
  })
}
