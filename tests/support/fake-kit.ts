import type { Desk } from '../../server/desk/desk.ts'
import { invalid, notFound } from '../../server/errors.ts'
import type { Night, NightDraft } from '../../server/tours/night.ts'
import { nightProblems, siteProblems, telescopeProblems } from '../../server/tours/problems.ts'
import { telescopeOf } from './demo-night.ts'
import type { Kept } from './fake-desk.ts'
import { A_NIGHT } from './field-data.ts'

/** The one of an id; a not-found Fault for none. */
export const findIn = <Thing extends { readonly id: string }>(
  things: readonly Thing[],
  id: string,
  what: string,
): Thing => {
  const found = things.find((thing) => thing.id === id)
  if (!found) throw notFound(what)
  return found
}

/** Sites, telescopes and nights in memory; it refuses what the real ones refuse. */
export function fakeKit(
  kept: Pick<Kept, 'sites' | 'telescopes' | 'nights'>,
  now: Date,
): Pick<Desk, 'sites' | 'telescopes' | 'nights'> {
  const refuse = (problems: ReturnType<typeof siteProblems>) => {
    if (problems.length > 0) throw invalid(problems)
  }
  const keep = <Thing>(list: Thing[], thing: Thing): Thing => {
    list.push(thing)
    return thing
  }
  const replace = <Thing extends { readonly id: string }>(list: Thing[], thing: Thing): Thing => {
    const at = list.findIndex(({ id }) => id === thing.id)
    list[at] = thing
    return thing
  }
  const nightOf = (draft: NightDraft): Night => {
    const site = findIn(kept.sites, draft.siteId, 'site')
    refuse(nightProblems(draft, now, site.zone))
    return { ...A_NIGHT, ...draft, id: `night-${kept.nights.length + 1}`, site, stations: A_NIGHT.stations }
  }
  return {
    sites: {
      all: () => kept.sites,
      find: (id) => findIn(kept.sites, id, 'site'),
      add(draft) {
        refuse(siteProblems(draft))
        return keep(kept.sites, { ...draft, id: `site-${kept.sites.length + 1}` })
      },
      change(id, draft) {
        findIn(kept.sites, id, 'site')
        refuse(siteProblems(draft))
        return replace(kept.sites, { ...draft, id })
      },
    },
    telescopes: {
      all: () => kept.telescopes,
      find: (id) => findIn(kept.telescopes, id, 'telescope'),
      add(draft) {
        refuse(telescopeProblems(draft))
        return keep(kept.telescopes, telescopeOf(draft, `telescope-${kept.telescopes.length + 1}`))
      },
      change(id, draft) {
        const { isPutAway = false } = findIn(kept.telescopes, id, 'telescope')
        refuse(telescopeProblems(draft))
        return replace(kept.telescopes, { ...telescopeOf(draft, id), ...(isPutAway && { isPutAway }) })
      },
      putAway: (id, isPutAway) => replace(kept.telescopes, { ...findIn(kept.telescopes, id, 'telescope'), isPutAway }),
    },
    nights: {
      all: () => kept.nights,
      find: (id) => findIn(kept.nights, id, 'night'),
      current: () => kept.nights[0],
      zoneOf: (id) => findIn(kept.nights, id, 'night').site.zone,
      everyStation: (id) => findIn(kept.nights, id, 'night').stations,
      add: (draft) => keep(kept.nights, nightOf(draft)),
      change: (id, draft) => replace(kept.nights, { ...nightOf(draft), id: findIn(kept.nights, id, 'night').id }),
    },
  }
}
