import { linesOf } from '../../drawings/letter-widths.ts'
import type { BareEyesMonth, PlanetByEye, ShowerSoon } from '../../tours/bare-eyes-month.ts'
import type { Words } from '../../words/words.ts'
import { rounded } from './facts.ts'
import { fistsText, type Names, pointText } from './say.ts'

/** Something to find with bare eyes: its name, and when and where. */
export interface ByEyeLine {
  readonly name: string
  readonly text: string
}

interface Say {
  readonly words: Words
  readonly names: Names
  readonly zone: string
}

const MOST_SIGHTS = 2
const FEW_METEORS = 10

/** What bare eyes find in the weeks after the night, as much of it as there is room for, planets first. */
export function byEyeLines(say: Say, month: BareEyesMonth, roomLines: number, columnEm: number): readonly ByEyeLine[] {
  const all = [
    ...month.planets.map((planet) => planetLine(say, planet)),
    ...month.showers.map((shower) => showerLine(say, shower)),
    ...month.sights.flatMap(({ key }) => sightLine(say, key)).slice(0, MOST_SIGHTS),
  ]
  let left = roomLines
  return all.filter(({ name, text }) => {
    const lines = linesOf(`${name} ${text}`, columnEm, true).length
    if (lines > left) return false
    left -= lines
    return true
  })
}

function planetLine({ words, names, zone }: Say, { key, at, point, fists, isNow }: PlanetByEye): ByEyeLine {
  const where = { time: words.time(at, zone), point: pointText(words, point), fists: fistsText(words, fists) }
  const date = words.dayAndMonth(at, zone)
  return {
    name: names.nameOf(key),
    text: words.say(isNow ? 'handout.planet-now' : 'handout.planet-later', { ...where, date }),
  }
}

function showerLine({ words, zone }: Say, { object, peakAt, mostPerHour, isMoonBright }: ShowerSoon): ByEyeLine {
  const date = words.dayAndMonth(peakAt, zone)
  const most = words.number(rounded(mostPerHour))
  const rate = words.say(mostPerHour < FEW_METEORS ? 'handout.shower-few' : 'handout.shower-most', { date, most })
  return { name: words.called(object.name), text: isMoonBright ? `${rate} ${words.say('handout.shower-moon')}` : rate }
}

/** What of it is told; [] for a sight without a story. */
function sightLine({ names }: Say, key: string): readonly ByEyeLine[] {
  const see = names.story(key)?.see
  return see ? [{ name: names.nameOf(key), text: see }] : []
}

/** The new, half and full Moons, each with its day. */
export const moonLines = ({ words, zone }: Omit<Say, 'names'>, { moons }: BareEyesMonth): readonly ByEyeLine[] =>
  moons.map(({ quarter, at }) => ({ name: words.say(`page.moon-${quarter}`), text: words.dayAndMonth(at, zone) }))
