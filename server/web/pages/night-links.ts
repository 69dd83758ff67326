import type { Night } from '../../tours/night.ts'
import { mayLead, type Viewer } from './sheet.ts'

export interface NightLink {
  readonly href: string
  readonly text: string
  readonly isHere: boolean
}

const READING = [
  'programme',
  'check',
  'line',
  'hole',
  'thin-cloud',
  'objects',
  'papers',
  'set-up',
  'checklists',
  'align',
  'aloud',
  'faults',
  'field',
] as const
export type NightPlace =
  | (typeof READING)[number]
  | 'board'
  | 'go'
  | 'report'
  | 'again'
  | 'phones'
  | 'class'
  | 'wishes'
  | 'edit'

const address = (id: string, place: NightPlace): string => {
  if (place === 'field') return `/field/${id}`
  if (place === 'board') return `/nights/${id}`
  return `/nights/${id}/${place}`
}

/** The pages of one night: those of its programme only once there is one, what changes it only for the host. */
export function nightLinks(viewer: Viewer, night: Night, hasTour: boolean, here: NightPlace | null): NightLink[] {
  const { words, mayHost, mayAct } = viewer
  const places: readonly NightPlace[] = [
    'board',
    ...(mayAct ? (['go'] as const) : []),
    ...(hasTour
      ? READING
      : (['programme', 'hole', 'thin-cloud', 'set-up', 'checklists', 'align', 'aloud', 'faults'] as const)),
    ...(mayAct ? (['report'] as const) : []),
    ...(mayLead(viewer) && hasTour ? (['again'] as const) : []),
    ...(mayHost ? (['phones', 'wishes', 'class', 'edit'] as const) : []),
  ]
  return places.map((place) => ({
    href: address(night.id, place),
    text: words.say(`page.night-link-${place}`),
    isHere: place === here,
  }))
}

/** Where the host makes the programme of a night under way again, and reads old beside new. */
export const againHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/again`

/** The page of one object on this night. */
export const objectHref = ({ id }: Pick<Night, 'id'>, key: string): string => `/nights/${id}/objects/${key}`
