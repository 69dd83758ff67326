import Fastify from 'fastify'
import { buildApp } from '../../server/app.ts'
import { loadAssets } from '../../server/web/assets.ts'
import { readWordTables } from '../../server/web/language.ts'
import { openDesk, standingClock } from '../support/desk-folder.ts'
import { WIDE } from '../support/web.ts'
import { BEGINS } from './evening.ts'

/**
 * The service in a process of its own, as `npm start` has it, on a data folder and at a clock that stands; with two
 * routes beside its pages that answer the bytes of a page as they are: `/constant?page=…` in the same app, behind the
 * same hooks, and `/bare?page=…` in a Fastify that has no hook at all, on a port of its own.
 */
const [folder = '', ...pages] = process.argv.slice(2)
const desk = await openDesk(folder, { clock: standingClock(BEGINS) })
const hosts = new Set<string>()
const app = await buildApp({
  desk,
  clock: standingClock(BEGINS),
  words: readWordTables(),
  allowedHosts: () => hosts,
  limits: WIDE,
  assets: await loadAssets(),
})
const bare = Fastify()
const constants = new Map<string, string>()
const TYPE = 'text/html; charset=utf-8'
const constantOf = (query: unknown): string => {
  const page = typeof query === 'object' && query !== null && 'page' in query ? String(query.page) : ''
  return constants.get(page) ?? ''
}

app.get('/constant', { config: { role: 'visitor' } }, async ({ query }, reply) =>
  reply.type(TYPE).send(constantOf(query)),
)
bare.get('/bare', async ({ query }, reply) => reply.type(TYPE).send(constantOf(query)))
const portOf = (address: string): number => Number(new URL(address).port)
const port = portOf(await app.listen({ port: 0, host: '127.0.0.1' }))
const barePort = portOf(await bare.listen({ port: 0, host: '127.0.0.1' }))
hosts.add(`127.0.0.1:${port}`)
for (const page of pages) constants.set(page, await finished(page))
process.on('SIGTERM', async () => {
  await Promise.all([app.close(), bare.close()])
  await desk.close()
  process.exit(0)
})
console.log(JSON.stringify({ port, barePort }))

/** A page with all that the worker has to tell: asked for until nothing is missing any more. */
async function finished(page: string): Promise<string> {
  const [first, second] = [await bodyOf(page), await bodyOf(page)]
  return first === second && !second.includes('data-unfinished') ? second : finished(page)
}

async function bodyOf(page: string): Promise<string> {
  const answer = await fetch(`http://127.0.0.1:${port}${page}`)
  return answer.text()
}
