import { skylineStrip } from '../../drawings/skyline-strip.ts'
import type { Svg } from '../../drawings/svg.ts'
import type { Night } from '../../tours/night.ts'
import { nearestSkyClass, type Site } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { nearPointText } from './bearing.ts'
import { siteNotesHref } from './notes-href.ts'
import { placeText } from './place-text.ts'
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
    /** The night as a file, for the host. */
    readonly file: (Link & { readonly label: string }) | null
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
      place: viewer.siteName(site),
      detail: words.say('page.night-detail', { opens, closes, count: stations.length }),
      state: words.say(`state.${state}`),
      file: mayHost
        ? {
            href: `/nights/${id}/file`,
            text: words.say('carry.as-file'),
            label: words.say('carry.as-file-of', { title, date: words.date(date) }),
          }
        : null,
    })),
    emptyText: words.say(mayHost ? 'page.nights-empty' : 'page.nights-empty-visitor'),
    add: [
      ...(mayHost
        ? [
            { href: '/nights/new', text: words.say('page.new-night') },
            { href: '/start', text: words.say('start.link') },
            { href: '/nights/import', text: words.say('carry.night-title') },
          ]
        : []),
      { href: '/season', text: words.say('season.link') },
      { href: '/dates', text: words.say('dates.link') },
      { href: '/sites', text: words.say('page.sites') },
    ],
  }
}

export interface Link {
  readonly href: string
  readonly text: string
}

/** The nights that something is used in, the latest three as links, and the page on which the host changes it. */
export interface Uses {
  readonly text: string
  readonly nights: readonly Link[]
  readonly change: (Link & { readonly label: string }) | null
}

const NIGHTS_SHOWN = 3

/** Of the nights that use it, what a list says, and the way to change it for the host. */
export function usesOf({ words, mayHost }: Viewer, nights: readonly Night[], path: string, name: string): Uses {
  const latest = [...nights].sort((a, b) => b.date.localeCompare(a.date))
  return {
    text: nights.length === 0 ? words.say('page.used-never') : words.say('page.used', { count: nights.length }),
    nights: latest.slice(0, NIGHTS_SHOWN).map(({ id, title, date }) => ({
      href: `/nights/${id}`,
      text: words.say('page.used-night', { title, date: words.date(date) }),
    })),
    change: mayHost
      ? { href: `${path}/edit`, text: words.say('page.change'), label: words.say('page.change-it', { name }) }
      : null,
  }
}

export interface SitesPage {
  readonly sheet: Sheet
  readonly title: string
  readonly sites: readonly {
    readonly name: string
    readonly place: string
    readonly zone: string
    readonly sky: string
    readonly skyline: string
    /** Trees and roofs all around; null where there are none. */
    readonly drawing: Svg | null
    readonly glow: string | null
    readonly newcomers: Link
    /** What the host must know of it; null for whoever is not the host. */
    readonly notes: Link | null
    readonly uses: Uses
  }[]
  readonly emptyText: string
  readonly add: readonly Link[]
}

/** The places to observe from, each in words, with the nights that use it. */
export function sitesPage(viewer: Viewer, sites: readonly Site[], nights: readonly Night[]): SitesPage {
  const { words, mayHost } = viewer
  return {
    sheet: daySheet(viewer, words.say('page.sites'), 'sites'),
    title: words.say('page.sites'),
    sites: sites.map((site) => ({
      name: site.name,
      place: placeText(words, site),
      zone: words.say('page.site-line', { height: words.length(site.heightM, 'meter'), zone: site.zone }),
      sky: words.say('page.sky-line', { mag: words.number(site.skyMag, 1), class: nearestSkyClass(site.skyMag) }),
      skyline: skylineText(words, site),
      drawing: site.horizon.length === 0 ? null : skylineStrip({ ...site, name: viewer.siteName(site) }, words),
      glow: glowText(words, site),
      newcomers: { href: `/sites/${site.id}/newcomers`, text: words.say('newcomers.link') },
      notes: mayHost ? { href: siteNotesHref(site), text: words.say('site-notes.link') } : null,
      uses: usesOf(
        viewer,
        nights.filter((night) => night.site.id === site.id),
        `/sites/${site.id}`,
        viewer.siteName(site),
      ),
    })),
    emptyText: words.say('page.sites-empty'),
    add: mayHost ? [{ href: '/sites/new', text: words.say('page.new-site') }] : [],
  }
}

/** The highest thing that stands around a site, and where. */
function skylineText(words: Words, { horizon }: Site): string {
  const [highest] = [...horizon].sort((a, b) => b.altitudeDeg - a.altitudeDeg)
  if (!highest || highest.altitudeDeg === 0) return words.say('page.skyline-open')
  return words.say('page.skyline-highest', {
    name: highest.name || words.say('cause.trees'),
    degrees: highest.altitudeDeg,
    point: nearPointText(words, highest.azimuthDeg),
  })
}

function glowText(words: Words, { glow }: Site): string | null {
  if (glow.length === 0) return null
  const sectors = glow.map(({ fromDeg, toDeg }) => {
    const [from, to] = [nearPointText(words, fromDeg), nearPointText(words, toDeg)]
    return from === to ? from : words.say('page.from-to', { from, to })
  })
  return words.say('page.glow-line', { list: words.list(sectors) })
}
