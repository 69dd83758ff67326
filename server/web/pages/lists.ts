import type { Night } from '../../tours/night.ts'
import type { Telescope } from '../../tours/telescope.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface NightsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly nights: readonly {
    readonly href: string
    readonly title: string
    readonly date: string
    readonly place: string
    readonly detail: string
    readonly state: string
  }[]
  readonly emptyText: string
  readonly add: readonly { readonly href: string; readonly text: string }[]
}

/** All nights, the latest date first. */
export function nightsPage(viewer: Viewer, nights: readonly Night[]): NightsPage {
  const { words, mayHost } = viewer
  const sorted = [...nights].sort((a, b) => b.date.localeCompare(a.date))
  return {
    sheet: daySheet(viewer, words.say('page.nights'), 'nights'),
    title: words.say('page.nights'),
    nights: sorted.map(({ id, title, date, site, opens, closes, stations, state }) => ({
      href: `/nights/${id}`,
      title,
      date: words.date(date),
      place: site.name,
      detail: words.say('page.night-detail', { opens, closes, count: stations.length }),
      state: words.say(`state.${state}`),
    })),
    emptyText: words.say(mayHost ? 'page.nights-empty' : 'page.nights-empty-visitor'),
    add: mayHost
      ? [
          { href: '/nights/new', text: words.say('page.new-night') },
          { href: '/sites/new', text: words.say('page.new-site') },
        ]
      : [],
  }
}

export interface TelescopesPage {
  readonly sheet: Sheet
  readonly title: string
  readonly telescopes: readonly {
    readonly name: string
    readonly mount: string
    readonly tubes: readonly string[]
    readonly eyepieces: string
    readonly reach: string
  }[]
  readonly emptyText: string
  readonly add: readonly { readonly href: string; readonly text: string }[]
}

/** The telescopes of the kit, each in words. */
export function telescopesPage(viewer: Viewer, telescopes: readonly Telescope[]): TelescopesPage {
  const { words, mayHost } = viewer
  return {
    sheet: daySheet(viewer, words.say('page.telescopes'), 'telescopes'),
    title: words.say('page.telescopes'),
    telescopes: telescopes.map(({ name, mount, tubes, eyepieces, axisLowCm, axisHighCm, chairReach }) => ({
      name,
      mount: words.say(`mount.${mount}`),
      tubes: tubes.map(({ design, apertureMm, focalLengthMm }) =>
        words.say('page.tube-line', {
          design: words.say(`design.${design}`),
          aperture: apertureMm,
          focal: focalLengthMm,
        }),
      ),
      eyepieces: words.say('page.eyepieces-line', { list: words.list(eyepieces.map((eyepiece) => eyepiece.name)) }),
      reach: words.say('page.reach-line', {
        low: axisLowCm,
        high: axisHighCm,
        chair: words.say(`reach.${chairReach}`),
      }),
    })),
    emptyText: words.say(mayHost ? 'page.telescopes-empty' : 'page.telescopes-empty-visitor'),
    add: mayHost ? [{ href: '/telescopes/new', text: words.say('page.new-telescope') }] : [],
  }
}
