import type { Hole, HoleLine, HoleStation } from '../../tours/hole.ts'
import type { Night } from '../../tours/night.ts'
import { SKY_PARTS, type SkyPart } from '../../tours/sky-part.ts'
import type { Words } from '../../words/words.ts'
import { checkRow } from './check.ts'
import type { LookLink } from './field.ts'
import { holeHref } from './hole-href.ts'
import { chanceText, type Names, pointText, remarkText } from './say.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'
import { setupText, stationName } from './stop-line.ts'

/** One big button: the parts that are open once it is touched. */
interface PartButton {
  readonly part: SkyPart
  readonly value: string
  readonly text: string
  readonly state: string
  readonly isOpen: boolean
}

interface HoleThing {
  readonly name: string
  readonly direction: string
  readonly when: string
  readonly chance: string
  readonly setups: readonly string[]
  readonly height: string | null
}

export interface HolePage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  readonly ask: string
  readonly action: string
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly parts: readonly PartButton[]
  readonly whole: readonly { readonly value: string; readonly text: string }[]
  readonly overhead: string
  readonly note: string | null
  readonly stations: readonly {
    readonly name: string
    readonly things: readonly HoleThing[]
    readonly emptyText: string | null
  }[]
  readonly meanwhileLabel: string
  readonly meanwhile: readonly string[]
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

interface HoleSubject {
  readonly night: Night
  readonly hole: Hole
  /** The instant as it was asked for, or null for now. */
  readonly asked: string | null
  readonly look: 'day' | 'lamp'
  readonly hasTour: boolean
  readonly names: Names
}

/** The order of the buttons, as on a map that lies on the ground with north up. */
export const SKY_MAP: readonly SkyPart[] = ['nw', 'n', 'ne', 'w', 'overhead', 'e', 'sw', 's', 'se']

/** What to turn to at once where the clouds leave a hole: nine buttons for what is open, three things for each telescope. */
export function holePage(viewer: Viewer, subject: HoleSubject): HolePage {
  const { words } = viewer
  const { night, hole, asked, look } = subject
  const hasThings = hole.note === null
  return {
    sheet: holeSheet(viewer, subject),
    title: words.say('hole.title'),
    nightTitle: night.title,
    time: words.time(hole.at, night.site.zone),
    ask: words.say('hole.ask'),
    action: holeHref(night),
    hidden: Object.entries({ look, ...(asked === null ? {} : { at: asked }) }).map(([name, value]) => ({
      name,
      value,
    })),
    parts: SKY_MAP.map((part) => partButton(viewer, hole.open, part)),
    whole: [
      { value: SKY_PARTS.join(','), text: words.say('hole.all') },
      { value: '', text: words.say('hole.none') },
    ],
    overhead: words.say('hole.overhead-means'),
    note: hole.note && remarkText(words, hole.note),
    stations: hasThings ? hole.stations.map((station) => stationPart(viewer, subject, station)) : [],
    meanwhileLabel: words.say(hasThings ? 'hole.if-closes' : 'hole.until-opens'),
    meanwhile: hole.meanwhile.map((remark) => remarkText(words, remark)),
    lookLink: lookLink(viewer, subject),
    ways: waysOf(viewer, subject),
  }
}

function holeSheet(viewer: Viewer, { night, look }: HoleSubject): Sheet {
  const sheet = fieldSheet(viewer, viewer.words.say('hole.of', { title: night.title }), look, ['page.js'])
  return { ...sheet, styles: [...sheet.styles, 'hole.css'] }
}

/** A part of the sky as the map names it, in a word that may part where its button is narrow. */
export const partLabel = (words: Words, part: SkyPart): string =>
  words.say(part === 'overhead' ? 'hole.overhead' : `hole.part-${part}`)

/** A part of the sky in a word, within a sentence: `north-west`, `overhead`. */
export const partText = (words: Words, part: SkyPart): string =>
  part === 'overhead' ? words.say('hole.overhead') : pointText(words, 2 * SKY_PARTS.indexOf(part))

function partButton({ words }: Viewer, open: readonly SkyPart[], part: SkyPart): PartButton {
  const isOpen = open.includes(part)
  const then = SKY_PARTS.filter((it) => (it === part ? !isOpen : open.includes(it)))
  return {
    part,
    value: then.join(','),
    text: partLabel(words, part),
    state: words.say(isOpen ? 'hole.is-open' : 'hole.is-shut'),
    isOpen,
  }
}

function stationPart(viewer: Viewer, subject: HoleSubject, { stationId, lines }: HoleStation) {
  const { night, names } = subject
  return {
    name: stationName(night, names, stationId),
    things: lines.map((line) => thing(viewer, subject, line)),
    emptyText: lines.length === 0 ? viewer.words.say('hole.nothing-here') : null,
  }
}

function thing(viewer: Viewer, { night, names }: HoleSubject, line: HoleLine): HoleThing {
  const { words } = viewer
  const { name, direction, when } = checkRow(viewer, night, line, names)
  const station = night.stations.find(({ id }) => id === line.stationId)
  const { eyepieceHeightCm: heightCm } = line
  return {
    name,
    direction,
    when,
    chance: chanceText(words, line.chance),
    setups: line.setups.flatMap((setup) => setupText(words, station, setup)),
    height: heightCm === null ? null : words.say('check.eyepiece', { height: words.length(heightCm, 'centimeter') }),
  }
}

function lookLink({ words }: Viewer, { night, hole, asked, look }: HoleSubject): LookLink {
  const other = look === 'lamp' ? 'day' : 'lamp'
  const query = { open: hole.open.join(','), ...(asked === null ? {} : { at: asked }), look: other }
  return { href: `${holeHref(night)}?${new URLSearchParams(query)}`, text: words.say(`field.look-${other}`) }
}

function waysOf({ words }: Viewer, { night, hasTour }: HoleSubject): LookLink[] {
  return [
    { href: `/field/${night.id}`, text: words.say('page.night-link-field') },
    ...(hasTour ? [{ href: `/nights/${night.id}/check`, text: words.say('page.night-link-check') }] : []),
    { href: `/nights/${night.id}`, text: words.say('field.to-board') },
  ]
}
