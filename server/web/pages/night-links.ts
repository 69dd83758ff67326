import type { Night } from '../../tours/night.ts'
import { byLamp, daySheet, mayLead, type NightNav, type Sheet, type SheetLink, type Viewer } from './sheet.ts'

const GROUPS = {
  before: ['edit', 'class', 'wishes', 'programme', 'line', 'objects', 'papers', 'phones', 'go'],
  during: ['set-up', 'checklists', 'align', 'field', 'check', 'hole', 'thin-cloud', 'again', 'faults', 'aloud'],
  after: ['report'],
} as const
const STAGES = ['before', 'during', 'after'] as const
type GroupedPlace = (typeof GROUPS)[(typeof STAGES)[number]][number]
type NightPlace = GroupedPlace | 'board'

const OF_PROGRAMME: ReadonlySet<NightPlace> = new Set(['line', 'objects', 'papers', 'field', 'check', 'again'])
const OF_HOST: ReadonlySet<NightPlace> = new Set(['edit', 'class', 'wishes', 'phones'])
const OF_ACTING: ReadonlySet<NightPlace> = new Set(['go', 'report'])
/** Whoever reads by the lamp is led on by the lamp, where a page knows it. */
const BY_LAMP: ReadonlySet<NightPlace> = new Set([
  ...(['set-up', 'checklists', 'align', 'field', 'check', 'hole', 'faults', 'aloud'] as const),
])

/** Of which night a page is, and which of its pages; `here` is null for one that is not in the list. */
interface NightPageOf {
  readonly night: Night
  readonly hasTour: boolean
  readonly here: NightPlace | null
  readonly look?: 'day' | 'lamp'
}

/** The frame of a page of one night, with the ways to the others: below the content on the board and by the lamp. */
export function nightSheet(viewer: Viewer, title: string, page: NightPageOf): Sheet {
  const { here, look } = page
  const sheet = daySheet(viewer, title, here === 'board' ? 'board' : null)
  return { ...(look === 'lamp' ? byLamp(sheet) : sheet), night: nightNav(viewer, page) }
}

/** The pages of one night: those of its programme only once there is one, what changes it only for the host. */
export function nightNav(viewer: Viewer, page: NightPageOf): NightNav {
  const { words } = viewer
  const groups = STAGES.map((stage) => ({
    heading: words.say(`page.night-${stage}`),
    links: GROUPS[stage]
      .filter((place) => isFor(viewer, place, page.hasTour))
      .map((place) => linkTo(viewer, page, place)),
  }))
  return {
    label: words.say('page.night-links'),
    isBelow: page.here === 'board' || page.look === 'lamp',
    isOpen: page.here === 'board',
    board: linkTo(viewer, page, 'board'),
    groups: groups.filter(({ links }) => links.length > 0),
  }
}

function isFor(viewer: Viewer, place: NightPlace, hasTour: boolean): boolean {
  if (OF_PROGRAMME.has(place) && !hasTour) return false
  if (OF_HOST.has(place)) return viewer.mayHost
  if (OF_ACTING.has(place)) return viewer.mayAct
  return place !== 'again' || mayLead(viewer)
}

function linkTo({ words }: Viewer, { night, here, look }: NightPageOf, place: NightPlace): SheetLink {
  const lit = look === 'lamp' && BY_LAMP.has(place) ? '?look=lamp' : ''
  return {
    href: `${address(night.id, place)}${lit}`,
    text: words.say(`page.night-link-${place}`),
    isHere: place === here,
  }
}

function address(id: string, place: NightPlace): string {
  if (place === 'field') return `/field/${id}`
  return place === 'board' ? `/nights/${id}` : `/nights/${id}/${place}`
}

/** Where the host makes the programme of a night under way again, and reads old beside new. */
export const againHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/again`

/** The page of one object on this night. */
export const objectHref = ({ id }: Pick<Night, 'id'>, key: string): string => `/nights/${id}/objects/${key}`
