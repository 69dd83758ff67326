import type { AgainState } from '../../desk/again.ts'
import type { Told } from '../../tours/again-marks.ts'
import type { Night } from '../../tours/night.ts'
import { SKY_PARTS } from '../../tours/sky-part.ts'
import { clockSaid } from '../../words/clock-said.ts'
import { type FormValues, numberOf } from './form-values.ts'

/** The form as all is known now. */
export const againValues = ({ opens, closes }: Night, { news }: AgainState): FormValues => ({
  opens,
  closes,
  ...Object.fromEntries(news.shut.map((part) => [`shut.${part}`, 'true'])),
  ...Object.fromEntries(news.out.map((id) => [`out.${id}`, 'true'])),
})

/** What the form tells; a number that cannot be read is NaN. */
export const toldOf = (values: FormValues, { stations }: Night): Told => ({
  key: values.key ?? '',
  shut: SKY_PARTS.filter((part) => values[`shut.${part}`] === 'true'),
  minutes: minutesOf(values.minutes),
  out: stations.map(({ id }) => id).filter((id) => values[`out.${id}`] === 'true'),
  timed: timedOf(values),
  adults: numberOrNull(values.adults),
  children: numberOrNull(values.children),
  opens: clockSaid(values.opens ?? ''),
  closes: clockSaid(values.closes ?? ''),
})

function minutesOf(text: string | undefined): Told['minutes'] {
  if (text === 'open') return null
  return text === '30' || text === '60' ? Number(text) : 'as-told'
}

function timedOf(values: FormValues): Told['timed'] {
  const [stationId, people, seconds] = [values['timed.stationId'], values['timed.people'], values['timed.seconds']]
  if ([stationId, people, seconds].every((value) => value === undefined)) return null
  return { stationId: stationId ?? '', people: numberOf(people), seconds: numberOf(seconds) }
}

const numberOrNull = (text: string | undefined): number | null => (text === undefined ? null : numberOf(text))
