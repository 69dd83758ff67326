import type { Night } from '../../tours/night.ts'
import { rolesOf } from '../../tours/roles.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { noteText } from './kit-note.ts'
import { type Link, type Uses, usesOf } from './lists.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { nightsWith } from './telescope-names.ts'
import { suitsText } from './telescope-text.ts'

interface Entry {
  readonly name: string
  readonly href: string
  readonly mount: string
  readonly tubes: readonly string[]
  readonly eyepieces: string
  readonly factors: string | null
  readonly reach: string
  readonly suits: string | null
  readonly note: string | null
  readonly uses: Uses
}

export interface TelescopesPage {
  readonly sheet: Sheet
  readonly title: string
  readonly telescopes: readonly Entry[]
  /** Those that no new night is offered; null where there are none. */
  readonly away: { readonly title: string; readonly telescopes: readonly Entry[] } | null
  readonly emptyText: string
  readonly add: readonly Link[]
}

/** The telescopes of the kit, each in words, with the nights that use it; those put away at the end. */
export function telescopesPage(
  viewer: Viewer,
  telescopes: readonly Telescope[],
  nights: readonly Night[],
): TelescopesPage {
  const { words, mayHost, telescopeName } = viewer
  const entry = (telescope: Telescope): Entry => ({
    ...telescopeLines(words, telescope),
    name: telescopeName(telescope),
    href: `/telescopes/${telescope.id}`,
    suits: suitsText(words, rolesOf(telescope)),
    note: noteText(words, telescope.note),
    uses: usesOf(viewer, nightsWith(nights, telescope), `/telescopes/${telescope.id}`, telescopeName(telescope)),
  })
  const away = telescopes.filter(({ isPutAway }) => isPutAway === true).map(entry)
  return {
    sheet: daySheet(viewer, words.say('page.telescopes'), 'telescopes'),
    title: words.say('page.telescopes'),
    telescopes: telescopes.filter(({ isPutAway }) => isPutAway !== true).map(entry),
    away: away.length === 0 ? null : { title: words.say('kit.away-title'), telescopes: away },
    emptyText: words.say(mayHost ? 'page.telescopes-empty' : 'page.telescopes-empty-visitor'),
    add: mayHost ? [{ href: '/telescopes/new', text: words.say('page.new-telescope') }] : [],
  }
}

/** What is known of a telescope, line by line. */
export function telescopeLines(words: Words, telescope: Telescope) {
  const { mount, tubes, eyepieces, factors, axisLowCm, axisHighCm, chairReach } = telescope
  const namesOf = (parts: readonly { readonly name: string }[]) => words.list(parts.map((part) => part.name))
  return {
    mount: words.say(`mount.${mount}`),
    tubes: tubes.map(({ design, apertureMm, focalLengthMm }) =>
      words.say('page.tube-line', {
        design: words.say(`design.${design}`),
        aperture: apertureMm,
        focal: focalLengthMm,
      }),
    ),
    eyepieces: words.say('page.eyepieces-line', { list: namesOf(eyepieces) }),
    factors: factors.length === 0 ? null : words.say('page.factors-line', { list: namesOf(factors) }),
    reach: words.say(axisLowCm === axisHighCm ? 'page.reach-line-fixed' : 'page.reach-line', {
      low: words.length(axisLowCm, 'centimeter'),
      high: words.length(axisHighCm, 'centimeter'),
      chair: words.say(`reach.${chairReach}`),
    }),
  }
}
