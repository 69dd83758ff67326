import { nightHours } from '../../server/tours/hours.ts'
import type { Assets } from '../../server/web/assets.ts'
import { PIECE_NAMES } from '../../server/web/pages/papers.ts'
import type { RouteRole } from '../../server/web/roles.ts'
import { AFTERNOON, standingClock } from './desk-folder.ts'
import { hostedNight } from './hosted-night.ts'
import { A_CLUSTER_DRAFT } from './own-object-data.ts'
import { asHost, HOST } from './web.ts'

const STEPS = 60

export interface Told {
  readonly url: string
  readonly status: number
  readonly type: string
  readonly body: string
}

/** Pages without scripts and styles, for whoever reads them without a browser. */
const BARE: Assets = { all: [], path: (name) => `/assets/${name}` }

/** The whole service over a real desk with the demo night, a programme and an own object, asked by the host. */
export async function typedService(assets: Assets = BARE) {
  const clock = standingClock(AFTERNOON)
  const routes: RouteRole[] = []
  const hosts = new Set([HOST])
  const { desk, app, night, cookie, close } = await hostedNight(clock, undefined, {
    allowedHosts: () => hosts,
    assets,
    routeSeen: (route) => routes.push(route),
  })
  await desk.tours.build(night.id, { seed: 1, steps: STEPS })
  const own = desk.own.add(A_CLUSTER_DRAFT)
  clock.moveTo(new Date(nightHours(night).opensAt.getTime() + 1_800_000).toISOString())

  async function ask(method: 'GET' | 'POST', url: string, payload?: string): Promise<Told> {
    // To join ends the session of whoever joins.
    const headers = {
      host: HOST,
      cookie: url === '/join' ? '' : cookie,
      ...(payload !== undefined && { 'content-type': FORM }),
    }
    const answer = await app.inject(asHost({ method, url, headers, ...(payload !== undefined && { payload }) }))
    const type = String(answer.headers['content-type'] ?? '')
    return { url, status: answer.statusCode, type, body: answer.body }
  }

  const pages = routes
    .filter(({ method, url }) => method === 'GET' && !LEFT_OUT.test(url))
    .flatMap(({ url }) => (url.includes(':piece') ? PIECE_NAMES.map((piece) => url.replace(':piece', piece)) : [url]))
    .map((url) =>
      url
        .replace('/extras/:key', `/extras/${own.key}`)
        .replace('/objects/own/:key', `/objects/own/${own.key}`)
        .replace('/nights/:id', `/nights/${night.id}`)
        .replace('/sites/:id', `/sites/${night.site.id}`)
        .replace('/telescopes/:id', `/telescopes/${night.stations[0]?.telescope?.id}`)
        .replace(':nightId', night.id)
        .replace(':stationId', night.stations[0]?.id ?? '')
        .replace(':language', 'en')
        .replace(':key', own.key),
    )
  return {
    pages: [...new Set(pages)].filter((url) => !url.includes(':')),
    get: (url: string) => ask('GET', url),
    post: (url: string, fields: readonly (readonly [string, string])[]) =>
      ask('POST', url, new URLSearchParams(fields.map(([name, value]): [string, string] => [name, value])).toString()),
    cookie,
    /** What a phone scans to be let in. */
    joinToken: desk.joins.codes(night.id).token,
    /** Turns all phones away. */
    dropPhones(): void {
      for (const { id } of desk.joins.phones(night.id)) desk.joins.revoke(night.id, id)
    },
    /** Opens it to browsers of this machine, and answers its address. */
    async open(): Promise<string> {
      const { port } = new URL(await app.listen({ port: 0, host: '127.0.0.1' }))
      hosts.add(`localhost:${port}`)
      return `http://localhost:${port}`
    },
    close,
  }
}
const FORM = 'application/x-www-form-urlencoded'
/** A stream, which never ends, and what holds nothing typed. */
const LEFT_OUT = /\/live$|^\/assets|openapi|\/api\/(health|places|sky)|^\/backups/

export type TypedService = Awaited<ReturnType<typeof typedService>>
