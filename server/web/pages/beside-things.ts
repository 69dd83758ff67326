import type {
  BesideHalf,
  BesideLine,
  ElsewhereLine,
  PassLine,
  PictureLine,
  SightLine,
} from '../../tours/beside-lines.ts'
import type { Night } from '../../tours/night.ts'
import { isForTelescopes } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { objectHref } from './night-links.ts'
import { chanceText, directionText, type Names, pointText, remarkText, targetName, untilText } from './say.ts'
import { stationName } from './stop-line.ts'

/** One thing at a station that is no telescope, in words; `name` is null for what is only said. */
export interface BesideThing {
  readonly name: string | null
  readonly href: string | null
  readonly direction: string | null
  readonly when: string | null
  readonly chance: string | null
  readonly texts: readonly string[]
}

interface Say {
  readonly words: Words
  readonly night: Night
  readonly names: Names
}

/** What a station that is no telescope shows in a half hour, in words; what the others show is one sentence. */
export function besideThings(say: Say, half: BesideHalf): readonly BesideThing[] {
  const elsewhere = half.lines.filter((line) => line.what === 'elsewhere')
  const things = half.lines.filter((line) => line.what !== 'elsewhere').map((line) => thingOf(say, half, line))
  return elsewhere.length === 0 ? things : [sendOn(say, half, elsewhere), ...things]
}

const SAID: BesideThing = { name: null, href: null, direction: null, when: null, chance: null, texts: [] }

function sendOn({ words, night, names }: Say, half: BesideHalf, lines: readonly ElsewhereLine[]): BesideThing {
  const { zone } = night.site
  const list = lines.map(({ stationId, targetKey, aim, fromAt, toAt }) => {
    const isWhole = fromAt.getTime() === half.fromAt.getTime() && toAt.getTime() === half.toAt.getTime()
    return words.say(isWhole ? 'beside.at-station' : 'beside.at-station-from-to', {
      name: targetName(words, names, targetKey, aim),
      station: stationName(night, names, stationId),
      from: words.time(fromAt, zone),
      to: words.time(toAt, zone),
    })
  })
  return { ...SAID, texts: [words.say('beside.send-on', { list: words.list(list) })] }
}

function thingOf(say: Say, half: BesideHalf, line: Exclude<BesideLine, ElsewhereLine>): BesideThing {
  if (line.what === 'sight') return sightThing(say, half, line)
  if (line.what === 'pass') return passThing(say, line)
  if (line.what === 'picture') return pictureThing(say, line)
  return { ...SAID, texts: [remarkText(say.words, line.remark)] }
}

function sightThing(say: Say, half: BesideHalf, line: SightLine): BesideThing {
  const { words, night, names } = say
  const { targetKey, fromAt, leave, chance, remarks } = line
  const { zone } = night.site
  const when = [
    ...(fromAt > half.fromAt ? [words.say('check.from', { time: words.time(fromAt, zone) })] : []),
    ...(leave === null ? [] : [untilText(words, leave.at, leave.cause, zone)]),
  ]
  return {
    ...nameOf(say, targetKey),
    direction: directionText(words, line),
    when: when.length === 0 ? null : when.join(', '),
    chance: names.show(targetKey)?.kind === 'meteor-shower' ? null : chanceText(words, chance),
    texts: remarks.map((remark) => remarkText(words, remark)),
  }
}

function passThing(say: Say, { targetKey, fromAt, toAt, fromPoint, toPoint }: PassLine): BesideThing {
  const { words, night } = say
  const { zone } = night.site
  const points = { from: pointText(words, fromPoint), to: pointText(words, toPoint) }
  return {
    ...SAID,
    ...nameOf(say, targetKey),
    direction: words.say('beside.passes', points),
    when: words.say('page.from-to', { from: words.time(fromAt, zone), to: words.time(toAt, zone) }),
  }
}

const pictureThing = (say: Say, { targetKey, aim, remarks }: PictureLine): BesideThing => ({
  ...SAID,
  ...nameOf(say, targetKey),
  name: targetName(say.words, say.names, targetKey, aim),
  texts: remarks.map((remark) => remarkText(say.words, remark)),
})

/** A thing's name with its page on this night, or the page about it where it is for no telescope. */
function nameOf({ night, names }: Say, key: string): Pick<BesideThing, 'name' | 'href'> {
  const object = names.show(key)
  const isOnNight = object !== undefined && isForTelescopes(object)
  return { name: names.nameOf(key), href: isOnNight ? objectHref(night, key) : `/objects/${key}` }
}
