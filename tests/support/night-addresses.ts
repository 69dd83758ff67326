import { eveningDate } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { PIECE_NAMES } from '../../server/web/pages/papers.ts'
import type { RouteRole } from '../../server/web/roles.ts'

/** Every address at which a GET of the service tells of a night, of its site, of its date or of its sky. */
export function nightAddresses(routes: readonly RouteRole[], night: Night, keys: readonly string[]): readonly string[] {
  const gets = routes.filter(({ method, url }) => method === 'GET' && isOfNight(url))
  return [...new Set(gets.flatMap(({ url }) => addressesOf(url, night, keys)))]
}

const SKY = ['/', '/api/sky/evening', '/api/sky/places', '/api/objects', '/api/dates']
const isOfNight = (url: string): boolean =>
  SKY.includes(url) || /\/(nights|sites)(\/:id|$)|:nightId|^\/(dates|sites|objects$)/.test(url)

function addressesOf(url: string, night: Night, keys: readonly string[]): readonly string[] {
  const many: Readonly<Record<string, readonly string[]>> = {
    ':piece': PIECE_NAMES,
    ':stationId': night.stations.map(({ id }) => id),
    ':key': keys,
  }
  const [name = '', values = ['']] = Object.entries(many).find(([each]) => url.includes(each)) ?? []
  return values.map((value) => filled(url.replace(name, value), night) + queryOf(url, night))
}

function filled(url: string, night: Night): string {
  const address = url
    .replace('/sites/:id', `/sites/${night.site.id}`)
    .replace('/nights/:id', `/nights/${night.id}`)
    .replace(':nightId', night.id)
    .replace(':date', eveningDate(night))
  if (address.includes(':')) throw new Error(`Nobody has told this test what to put into ${url}`)
  return address
}

/** What an address needs behind it to tell of this night. */
function queryOf(url: string, night: Night): string {
  const { id, latitudeDeg, longitudeDeg, heightM, zone } = night.site
  const date = eveningDate(night)
  const place = `latitudeDeg=${latitudeDeg}&longitudeDeg=${longitudeDeg}&heightM=${heightM}`
  if (url === '/api/sky/evening') return `?date=${date}&zone=${zone}&${place}`
  if (url === '/api/sky/places') return `?at=${date}T12:00:00Z&keys=moon,sun,m13&${place}`
  if (/^(\/api)?\/dates$/.test(url)) return `?site=${id}&from=${date.slice(0, 7)}`
  if (url.startsWith('/dates/')) return `?site=${id}`
  return /^(\/api)?\/objects$/.test(url) ? `?site=${id}&month=${date.slice(0, 7)}` : ''
}
