import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { AnswerTrouble } from './problems.ts'

const SAFE_METHODS = new Set(['GET', 'HEAD'])

/** Why a request is not let in: its status and the key of the sentence; null when it may pass. */
type Refusal = { readonly status: 403 | 421; readonly key: string } | null

/**
 * The check at the door. Host must be one of ours, said once (a foreign name for our address is how a page elsewhere
 * would reach us), and whatever changes something must come from our own pages: Origin equal to `http://` + Host.
 * Sec-Fetch-Site only ever denies, since browsers leave it out on plain http in a local network.
 */
function refusal(request: FastifyRequest, hosts: ReadonlySet<string>): Refusal {
  const host = onlyHost(request.raw.rawHeaders, request.headers.host)
  if (host === undefined || !hosts.has(host.toLowerCase())) return { status: 421, key: 'fault.foreign-host' }
  if (!isOurTarget(request.raw.url ?? '', host)) return { status: 421, key: 'fault.foreign-host' }
  if (SAFE_METHODS.has(request.method)) return null
  if (request.headers['sec-fetch-site'] === 'cross-site') return { status: 403, key: 'fault.foreign-origin' }
  return request.headers.origin === `http://${host}` ? null : { status: 403, key: 'fault.foreign-origin' }
}

function onlyHost(rawHeaders: readonly string[], host: string | undefined): string | undefined {
  const said = rawHeaders.filter((name, index) => index % 2 === 0 && name.toLowerCase() === 'host').length
  return said > 1 ? undefined : host
}

/** A request line may carry a whole address; its host must then be the same one. */
function isOurTarget(target: string, host: string): boolean {
  if (target.startsWith('/')) return true
  return URL.canParse(target) && new URL(target).host === host.toLowerCase()
}

/** Puts the check before everything else, on every method and on addresses that do not exist too. */
export function keepDoor(app: FastifyInstance, hosts: () => ReadonlySet<string>, answer: AnswerTrouble): void {
  app.addHook('onRequest', async (request, reply) => {
    const refused = refusal(request, hosts())
    if (refused) return answer(request, reply, refused)
  })
}
