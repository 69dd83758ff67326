import type { FastifyInstance } from 'fastify'
import type { LiveBoard } from './live.ts'

const LONGEST_WAIT_MS = 1_000
const LOOK_AGAIN_MS = 20

/** Before the service closes: ends the live streams and lets the requests that are under way finish, for a second at most. */
export function closeGently(app: FastifyInstance, live: LiveBoard): void {
  let underWay = 0
  app.addHook('onRequest', async (_request, reply) => {
    underWay++
    reply.raw.once('close', () => underWay--)
  })
  app.addHook('preClose', async () => {
    live.close()
    const until = performance.now() + LONGEST_WAIT_MS
    while (underWay > 0 && performance.now() < until) await new Promise((done) => setTimeout(done, LOOK_AGAIN_MS))
  })
}
