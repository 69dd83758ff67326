import { createHash } from 'node:crypto'
import type { News } from '../tours/news.ts'
import type { Night } from '../tours/night.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Telescope } from '../tours/telescope.ts'
import type { Wish } from '../tours/wish.ts'

/** Stands for all that goes into a programme. Title, state, place name, operators, and what the kit list alone says of a telescope are left out: they decide nothing; so are counts and timings, which never stand still. */
export function digestOf(
  catalogueDigest: string,
  { title: _title, state: _state, ...night }: Night,
  own: readonly ShowObject[],
  wishes: readonly Wish[],
  { shut, out }: News,
): string {
  const stations = night.stations.map(({ operator: _operator, telescope, ...station }) => ({
    ...station,
    telescope: telescope && shownBy(telescope),
  }))
  const { name: _name, ...site } = night.site
  const wished = wishes.map(({ id: _id, ...wish }) => wish)
  return sha256(JSON.stringify([catalogueDigest, { ...night, site, stations, wished, shut, out }, ...own], inOrder))
}

/** A telescope without what decides nothing of what it shows when. */
function shownBy(telescope: Telescope) {
  const { finder: _finder, inKitSince: _since, note: _note, isPutAway: _isPutAway, ...rest } = telescope
  return rest
}

/** Writes the fields of every object in the order of their names, so that equal inputs have equal texts. */
const inOrder = (_key: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value

/** The seed of a night, the same on every laptop: 31 bits of a digest of its date, title and place. */
export const seedOf = ({ date, title, site }: Night): number =>
  Number.parseInt(sha256(JSON.stringify([date, title, site.latitudeDeg, site.longitudeDeg])).slice(0, 8), 16) >>> 1

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')
