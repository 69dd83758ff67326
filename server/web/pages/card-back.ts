import type { FieldLayout } from '../../drawings/field.ts'
import type { Svg } from '../../drawings/svg.ts'
import type { BodyKey } from '../../sky/body.ts'
import type { ShowObject } from '../../tours/target.ts'
import { middleOf, type Spare, type Stop } from '../../tours/tour.ts'
import { BACKS, type CardSize, fitsBack, type Told } from './card-fit.ts'
import type { CardsSubject } from './cards.ts'
import { distanceText, factsOf } from './facts.ts'
import { versionText } from './paper-frame.ts'
import type { SizedPicture } from './print-pictures.ts'
import { sourceText } from './say.ts'
import type { Viewer } from './sheet.ts'

/** The back of a card. */
export interface CardBack {
  readonly name: string | null
  /** What will be seen, and the way there. */
  readonly pictures: readonly Svg[]
  /** What signs in the pictures mean, what the front has no room for, facts with their sources, the way in words. */
  readonly told: readonly Told[]
  readonly foot: string | null
}

/** A back before it is known what of it there is room for. */
interface Filled {
  readonly name: string | null
  readonly pictures: readonly SizedPicture[]
  readonly told: readonly Told[]
  readonly foot: string | null
}

/** The one back of a card with as much on it as it holds, the most needed first; null where nothing is known. */
export function cardBack(viewer: Viewer, subject: CardsSubject, key: string, spared: readonly Told[]): CardBack | null {
  const { names, night, tour, cards } = subject
  const { size } = cards
  const object = names.show(key)
  const { field, finder, noWay } = picturesOf(subject, key, object)
  const [first, ...facts] = object ? sourced(viewer, object) : []
  const wanted: readonly Part[] = [
    ...[field, finder].flatMap((picture) => (picture === null ? [] : [withPicture(picture)])),
    ...textsIn([field?.legend ?? null]),
    (back) => ({ ...back, name: names.nameOf(key) }),
    ...[...spared, ...(first ? [first] : [])].map(withLine),
    ...textsIn(finder?.notes ?? [noWay]),
    ...facts.map(withLine),
    ...textsIn(field?.notes ?? []),
  ]
  const full = wanted.reduce((back, add) => ifFits(add(back), size) ?? back, EMPTY)
  if (full.pictures.length === 0 && full.told.length === 0) return null
  const whole = ifFits({ ...full, foot: versionText(viewer, night, tour) }, size) ?? full
  return { ...whole, pictures: whole.pictures.map(({ svg }) => svg) }
}

/** Adds one thing to a back. */
type Part = (back: Filled) => Filled

const EMPTY: Filled = { name: null, pictures: [], told: [], foot: null }

const withPicture =
  (picture: SizedPicture): Part =>
  (back) => ({ ...back, pictures: [...back.pictures, picture] })

const withLine =
  (line: Told): Part =>
  (back) => ({ ...back, told: [...back.told, line] })

const textsIn = (texts: readonly (string | null)[]): readonly Part[] =>
  texts.flatMap((text) => (text === null ? [] : [withLine({ label: null, text })]))

function ifFits(back: Filled, size: CardSize): Filled | null {
  const { name, pictures, told, foot } = back
  const face = {
    name,
    pictureHeightsMm: pictures.map(({ heightMm }) => heightMm),
    told,
    foot,
  }
  return fitsBack(face, size) ? back : null
}

/** What everyone finds with bare eyes needs no chart. */
const BY_EYE: readonly BodyKey[] = ['moon', 'mercury', 'venus', 'mars', 'jupiter', 'saturn']

interface Pictures {
  readonly field: SizedPicture | null
  readonly finder: SizedPicture | null
  /** Why there is no finder chart, where one was looked for. */
  readonly noWay: string | null
}

function picturesOf({ tour, pictures, cards }: CardsSubject, key: string, object: ShowObject | undefined): Pictures {
  const stop = firstOf(tour.stops, key) ?? asStop(tour.spares.find(({ targetKey }) => targetKey === key))
  if (stop === undefined) return { field: null, finder: null, noWay: null }
  const { finderMm } = BACKS[cards.size]
  const isFound = object?.body != null && BY_EYE.includes(object.body)
  const field = (layout: FieldLayout) => pictures.field({ ...stop, setups: stop.setups.slice(0, 1) }, layout)
  const hasNoFinder = isFound && finderMm !== null
  const seen = (hasNoFinder ? fittingAlone(field('whole-card'), cards.size) : null) ?? field('card')
  const way = finderMm === null || isFound ? null : pictures.finder(stop, middleOf(stop), finderMm)
  return { field: seen, ...(typeof way === 'string' ? { finder: null, noWay: way } : { finder: way, noWay: null }) }
}

/** A picture for which there is room with what its signs mean; null where there is not. */
function fittingAlone(picture: SizedPicture | null, size: CardSize): SizedPicture | null {
  if (picture === null) return null
  const { legend, heightMm } = picture
  const told = legend === null ? [] : [{ label: null, text: legend }]
  return fitsBack({ name: null, pictureHeightsMm: [heightMm], told, foot: null }, size) ? picture : null
}

const firstOf = (stops: readonly Stop[], key: string): Stop | undefined =>
  stops
    .filter(({ targetKey }) => targetKey === key)
    .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
    .at(0)

const asStop = (spare: Spare | undefined): Stop | undefined =>
  spare && {
    ...spare,
    aim: 'whole',
    startsAt: spare.fromAt,
    endsAt: spare.untilAt,
    leaveBy: null,
    view: 0,
    looks: 0,
    reasons: [],
  }

/** What the catalogue knows, each with the source of its value. */
function sourced({ words }: Viewer, object: ShowObject): readonly Told[] {
  const distance = distanceText(words, object)
  return [...(distance === null ? [] : [{ column: 'distanceLy', text: distance }]), ...factsOf(words, object)].map(
    ({ column, text }) => {
      const source = object.sources[column]
      return {
        label: null,
        text:
          source === undefined ? text : words.say('card.sourced', { fact: text, source: sourceText(words, source) }),
      }
    },
  )
}
