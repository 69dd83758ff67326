import type { Site } from '../../tours/site.ts'
import { heard } from '../../tours/station-name.ts'
import type { Words } from '../../words/words.ts'
import { placeText } from './place-text.ts'

/** What each site is called, by its id: those of one name with where they lie, and with a number where that is one place too. */
export function siteNames(words: Words, sites: readonly Site[]): (site: Pick<Site, 'id' | 'name'>) => string {
  const names = new Map(sites.map((site) => [site.id, nameAmong(words, site, sites)]))
  return ({ id, name }) => names.get(id) ?? name
}

function nameAmong(words: Words, site: Site, sites: readonly Site[]): string {
  const namesakes = sites.filter((other) => heard(other.name) === heard(site.name))
  if (namesakes.length === 1) return site.name
  const place = placeText(words, site)
  const there = namesakes.filter((other) => placeText(words, other) === place)
  const number = words.say('kit.apart-number', { number: namesakes.indexOf(site) + 1 })
  const facts = there.length === 1 ? place : `${place}, ${number}`
  return words.say('kit.apart', { name: site.name, facts })
}
