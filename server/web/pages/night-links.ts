import type { Night } from '../../tours/night.ts'
import type { Viewer } from './sheet.ts'

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
  'objects',
  'run-sheet',
  'check-sheet',
  'sheets',
  'cards',
  'field',
] as const
const PRINTED: readonly string[] = ['run-sheet', 'check-sheet', 'sheets', 'cards']
export type NightPlace = (typeof READING)[number] | 'board' | 'wishes' | 'edit'

const address = (id: string, place: NightPlace): string => {
  if (place === 'field') return `/field/${id}`
  if (place === 'board') return `/nights/${id}`
  return `/nights/${id}/${PRINTED.includes(place) ? 'print/' : ''}${place}`
}

/** The pages of one night: those of its programme only once there is one, the form only for the host. */
export function nightLinks(
  { words, mayHost }: Viewer,
  night: Night,
  hasTour: boolean,
  here: NightPlace | null,
): NightLink[] {
  const places: readonly NightPlace[] = [
    'board',
    ...(hasTour ? READING : (['programme', 'hole'] as const)),
    ...(mayHost ? (['wishes', 'edit'] as const) : []),
  ]
  return places.map((place) => ({
    href: address(night.id, place),
    text: words.say(`page.night-link-${place}`),
    isHere: place === here,
  }))
}

/** The page of one object on this night. */
export const objectHref = ({ id }: Pick<Night, 'id'>, key: string): string => `/nights/${id}/objects/${key}`
