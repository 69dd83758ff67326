import { tubeView } from '../sight/orientation.ts'
import { anglesOfDate, zenithAngleDeg } from '../sky/zenith-angle.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Words } from '../words/words.ts'
import type { FieldSubject, FieldView } from './field.ts'
import { glowMatter } from './field-glow.ts'
import { jupiterMatter } from './field-jupiter.ts'
import { moonMatter } from './field-moon.ts'
import type { Frame, Matter } from './field-paper.ts'
import { type PlanetNow, planetMatter, planetNow } from './field-planets.ts'
import { saturnMatter } from './field-saturn.ts'
import { clusterMatter, doubleMatter, neighboursOf, starMatter } from './field-stars.ts'
import { middleOf, type StarBeside } from './thing-stars.ts'

/** A field as it stands in one tube: its frame, what is in its middle, and the stars around that. */
export interface Field {
  readonly frame: Frame
  readonly matter: Matter
  readonly neighbours: readonly StarBeside[]
}

/** What one tube shows of a thing; null where nobody can draw it. */
export function fieldOf(subject: FieldSubject, view: FieldView, words: Words): Field | null {
  const { thing, at, place } = subject
  const body = thing.body ?? (thing.kind === 'planet-moon' ? thing.parent : null)
  if (body === 'sun') return null
  if (body !== null) {
    const now = planetNow(body, at, place)
    const frame = { turn: turnOf(view, zenithAngleDeg(now.look, at, place)), poleDeg: 0 }
    return { frame, matter: bodyMatter(now, thing, at, frame, view, words), neighbours: [] }
  }
  const middle = middleOf(thing)
  if (middle === null) return null
  const { zenithDeg, poleDeg } = anglesOfDate(middle, at, place)
  const frame = { turn: turnOf(view, zenithDeg), poleDeg }
  const neighbours = neighboursOf(thing, middle, subject.stars)
  const matter = skyMatter(thing, neighbours, frame)
  return matter && { frame, matter, neighbours }
}

/** Zenith up, and then as the tube turns it. */
function turnOf({ tube }: FieldView, zenithDeg: number) {
  const { turnedDeg, isMirrored } = tubeView(tube)
  return { clockwiseDeg: zenithDeg + turnedDeg, isMirrored }
}

function bodyMatter(
  now: PlanetNow,
  thing: ShowObject,
  at: Date,
  frame: Frame,
  { setup: { trueFieldDeg } }: FieldView,
  words: Words,
): Matter {
  switch (now.look.key) {
    case 'moon':
      return moonMatter(thing.features, at, now.look.diameterArcsec / 60, trueFieldDeg)
    case 'jupiter':
      return jupiterMatter(at, frame, trueFieldDeg, words)
    case 'saturn':
      return saturnMatter(now, at, frame)
    default:
      return planetMatter(now)
  }
}

function skyMatter(thing: ShowObject, neighbours: readonly StarBeside[], frame: Frame): Matter | null {
  switch (thing.kind) {
    case 'star':
    case 'red-star':
      return starMatter(thing)
    case 'double':
      return doubleMatter(thing, frame) ?? starMatter(thing)
    case 'open-cluster':
      return clusterMatter(thing, neighbours, frame)
    case 'asterism':
      return patternMatter(thing)
    case 'bare-eye':
    case 'meteor-shower':
      return null
    default:
      return glowMatter(thing, frame)
  }
}

/** A pattern is drawn with the stars of its field. */
const patternMatter = ({ fieldDeg }: ShowObject): Matter => ({
  draw: () => ({ svg: [], ellipses: [], stars: [], discs: [], marks: [] }),
  reach: [0, 0],
  offArcmin: [0, 0],
  leastArcmin: 60 * (fieldDeg ?? 1),
  tooSmall: null,
  inset: null,
  notes: [],
})
