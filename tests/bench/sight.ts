import { readOutreach } from '../../db/catalogue/outreach.ts'
import { backdropOf } from '../../server/sight/backdrop.ts'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { type View, viewThrough } from '../../server/sight/optics.ts'
import { prepare } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'
import { bodyLook } from '../../server/sky/body.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { saturnRing } from '../../server/sky/saturn.ts'
import { facesAt } from '../../server/tours/faces.ts'
import { subjectOf } from '../../server/tours/subject.ts'
import { chancesOneByOne } from './baseline-sight.ts'
import { medianMs, ROUNDS } from './median.ts'

const OBJECTS = 500
const BASELINE_EVERY = 20
const MOMENTS = 60
const AT = new Date('2026-12-17T19:00:00Z')
const PLACE = { latitudeDeg: 47.4, longitudeDeg: 8.6, heightM: 450 }
const CONDITIONS = { ...DEFAULT_CONDITIONS, moonGazerShare: 0.25 }
const ALLOWED = { difference: 1e-12, ms: 300 }

/** The things of the programme, over and over, until there are enough. */
function subjects(): Subject[] {
  const known = readOutreach().flatMap((object) => {
    const looks = object.body === null ? {} : { [object.body]: bodyLook(object.body, AT, PLACE) }
    const subject = subjectOf(object, { looks, rings: saturnRing(AT), faces: facesAt(AT) })
    return subject === null ? [] : [subject]
  })
  return Array.from({ length: OBJECTS }, (_, i) => known[i % known.length] ?? []).flat()
}

/** Any places above the horizon from full twilight to night with a Moon up: nothing is spared by being down. */
function skies(): SkyGeometry[][] {
  const random = seededRandom(20_261_217)
  const place = (): SkyGeometry => ({
    altitudeDeg: 1 + 89 * random(),
    azimuthDeg: 360 * random(),
    sunAltitudeDeg: -30 * random(),
    sunSeparationDeg: 180 * random(),
    moon: {
      altitudeDeg: 1 + 60 * random(),
      phaseAngleDeg: 180 * random(),
      distanceKm: 384_400,
      separationDeg: 180 * random(),
    },
  })
  return Array.from({ length: OBJECTS }, () => Array.from({ length: MOMENTS }, place))
}

const views = (): View[] =>
  [60, 102, 150, 250].flatMap((apertureMm) =>
    [32, 10].map((focalLengthMm) =>
      viewThrough(
        { apertureMm, focalLengthMm: 1000, obstruction: 0.2, transmission: 0.85 },
        { focalLengthMm, apparentFieldDeg: 60, fieldStopMm: null },
      ),
    ),
  )

interface Asked {
  readonly things: readonly Subject[]
  readonly places: readonly (readonly SkyGeometry[])[]
  readonly eyes: readonly View[]
}

/** The table as the programme makes it: each place of the sky once for all views, each thing in a view once for all moments. */
function chancesPrepared({ things, places, eyes }: Asked): Float64Array {
  const chances = new Float64Array(things.length * eyes.length * MOMENTS)
  let at = 0
  for (const [i, thing] of things.entries()) {
    const moments = (places[i] ?? []).map((place) => ({ place, backdrop: backdropOf(place, CONDITIONS) }))
    for (const eye of eyes) {
      const ask = prepare(thing, eye, CONDITIONS)
      for (const { place, backdrop } of moments) chances[at++] = ask(place, backdrop).chance
    }
  }
  return chances
}

/** Every so manieth thing with its places: what the slow way is asked. */
const sample = ({ things, places, eyes }: Asked): Asked => ({
  things: things.filter((_, i) => i % BASELINE_EVERY === 0),
  places: places.filter((_, i) => i % BASELINE_EVERY === 0),
  eyes,
})

const say = (line: string): void => console.log(`sight: ${line}`)

/** Compares the table of chances with whole sightings one by one, first the results and then the times, and prints both. */
export function benchSight(): void {
  const all: Asked = { things: subjects(), places: skies(), eyes: views() }
  const few = sample(all)
  const theirs = chancesOneByOne(few.things, few.places, few.eyes, CONDITIONS)
  const ours = chancesPrepared(few)
  const difference = ours.reduce((most, chance, i) => Math.max(most, Math.abs(chance - (theirs[i] ?? Number.NaN))), 0)
  say(`largest difference ${difference.toExponential(1)} over ${ours.length} chances`)
  if (!(ours.length === theirs.length && difference <= ALLOWED.difference)) {
    throw new Error('sight: the results differ, so the times mean nothing')
  }
  const plainMs = BASELINE_EVERY * medianMs(() => chancesOneByOne(few.things, few.places, few.eyes, CONDITIONS))
  const tableMs = medianMs(() => chancesPrepared(all))
  say(`${OBJECTS} objects x ${MOMENTS} moments x ${all.eyes.length} views, median of ${ROUNDS}`)
  say(`one by one ${plainMs.toFixed(0)} ms (every ${BASELINE_EVERY}th object, scaled)`)
  say(
    `table ${tableMs.toFixed(0)} ms (demand ${ALLOWED.ms}), ${(plainMs / tableMs).toFixed(0)} times faster` +
      `${tableMs > ALLOWED.ms ? ': TOO SLOW on this machine' : ''}`,
  )
}
