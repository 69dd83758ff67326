import type { CheckLine } from '../../tours/check.ts'
import type { GoodNow } from '../../tours/good-now.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Station } from '../../tours/night.ts'
import type { Aim } from '../../tours/target.ts'
import type { Setup } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { type BesideThing, besideThings } from './beside-things.ts'
import { kindText, partsOf } from './card-face.ts'
import { type FieldGround, halfAt, runningStop, stateOf } from './field-ground.ts'
import { lightText } from './light-text.ts'
import { directionText } from './say.ts'
import { setupText } from './stop-line.ts'

/** What to say of the thing that is on, and how to point the telescope at it. */
export interface AboutPart {
  readonly summary: string
  /** Where it stands now; null where that is still being worked out, or the station is no telescope. */
  readonly direction: string | null
  readonly setups: readonly string[]
  readonly height: string | null
  readonly kind: string | null
  /** What to say before the look. */
  readonly see: string | null
  readonly parts: readonly { readonly label: string; readonly text: string }[]
  /** What a station that is no telescope shows, thing by thing. */
  readonly things: readonly BesideThing[]
}

const NOTHING = { direction: null, setups: [], height: null, kind: null, see: null, parts: [], things: [] }

/** About what is on, or, when nothing is, about what comes next; null when neither is known. */
export function aboutPart(words: Words, ground: FieldGround, station: Station, good: GoodNow | null): AboutPart | null {
  const state = stateOf(ground, station.id)
  const thing = state?.showing ?? state?.next
  const summary = words.say('field.about')
  if (thing) return { ...NOTHING, summary, ...pointing(words, ground, station, good), ...told(words, ground, thing) }
  const half = halfAt(ground.beside, station.id, ground.field.at)
  return half === undefined ? null : { ...NOTHING, summary, things: besideThings({ words, ...ground }, half) }
}

function pointing(words: Words, ground: FieldGround, station: Station, good: GoodNow | null) {
  const state = stateOf(ground, station.id)
  const setups = state && runningStop(ground, state)?.setups
  const on = good?.on ?? null
  return {
    direction: on && words.say('field.stands', { direction: directionText(words, on) }),
    setups: setupTexts(words, station, setups ?? on?.setups ?? []),
    height: on && heightText(words, on),
  }
}

/** What to put in, a line for each look. */
const setupTexts = (words: Words, station: Station, setups: readonly Setup[]): string[] =>
  setups.flatMap((setup) => setupText(words, station, setup))

const heightText = (words: Words, { eyepieceHeightCm: heightCm }: CheckLine): string | null =>
  heightCm === null ? null : words.say('check.eyepiece', { height: words.length(heightCm, 'centimeter') })

function told(
  words: Words,
  { names, night }: FieldGround,
  { targetKey }: { readonly targetKey: string; readonly aim: Aim },
) {
  const [object, story] = [names.show(targetKey), names.story(targetKey)]
  const light = (object && lightText(words, object, nightHours(night).opensAt, names.worldEvents())) ?? null
  return {
    kind: object && object.kind !== 'moon' ? kindText(words, object) : null,
    see: story?.see || (object ? words.say(`card.about-${object.kind}`) : null),
    parts: story ? partsOf(words, story, light) : [],
  }
}
