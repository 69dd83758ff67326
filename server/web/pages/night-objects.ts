import type { Night } from '../../tours/night.ts'
import type { PassingThing } from '../../tours/own-pass.ts'
import type { ObjectHit } from '../../tours/target.ts'
import { nightSheet, objectHref } from './night-links.ts'
import { passText } from './own-facts.ts'
import type { Sheet, Viewer } from './sheet.ts'

export interface NightObjectsPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly action: string
  readonly query: string
  readonly queryLabel: string
  readonly searchText: string
  readonly hits: readonly { readonly name: string; readonly kind: string; readonly href: string }[]
  /** What to say where nothing is listed. */
  readonly emptyText: string | null
  readonly passesLabel: string
  /** What passes over in the public hours, in the order of its times. */
  readonly passes: readonly { readonly name: string; readonly text: string }[]
  readonly listText: string
  readonly ownText: string
  readonly ownHref: string
}

interface NightObjectsSubject {
  readonly night: Night
  readonly hasTour: boolean
  readonly query: string
  readonly hits: readonly ObjectHit[]
  readonly passes: readonly PassingThing[]
}

/** The way to any object of the outreach list on one night: a name or number typed, and what answers to it. */
export function nightObjectsPage(
  viewer: Viewer,
  { night, hasTour, query, hits, passes }: NightObjectsSubject,
): NightObjectsPage {
  const { words } = viewer
  return {
    sheet: nightSheet(viewer, words.say('page.objects-of', { title: night.title }), {
      night,
      hasTour,
      here: 'objects',
    }),
    nightTitle: night.title,
    title: words.say('page.objects'),
    action: `/nights/${night.id}/objects`,
    query,
    queryLabel: words.say('page.objects-query'),
    searchText: words.say('page.objects-search'),
    hits: hits.map(({ key, name, kind }) => ({
      ...{ name: words.called(name), kind: words.say(`kind.${kind}`) },
      href: objectHref(night, key),
    })),
    emptyText: query !== '' && hits.length === 0 ? words.say('page.objects-none', { query }) : null,
    passesLabel: words.say('own.passes'),
    passes: passes.map(({ draft: { name, magnitude }, pass }) => ({
      name,
      text: passText(words, pass, magnitude, night.site.zone),
    })),
    listText: words.say('object.link-list'),
    ownText: words.say('own.link'),
    ownHref: '/extras',
  }
}
