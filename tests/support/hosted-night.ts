import type { FastifyInstance } from 'fastify'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { type AppNeeds, buildApp } from '../../server/app.ts'
import type { Clock } from '../../server/clock.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { readWordTables } from '../../server/web/language.ts'
import { ASSETS } from './assets.ts'
import { freshDesk, searchingBriefly } from './desk-folder.ts'
import { asHost, asVisitor, formPost, HOST, LAN_HOST, WIDE } from './web.ts'

const PIN = '271828'

/** The whole service with its real pages over a real desk, called by two Host values. */
export const realApp = async (desk: Desk, clock: Clock, more: Partial<AppNeeds> = {}): Promise<FastifyInstance> =>
  buildApp({
    desk,
    clock,
    words: readWordTables(),
    allowedHosts: () => new Set([HOST, LAN_HOST]),
    limits: WIDE,
    assets: await ASSETS,
    ...more,
  })

const sessionOf = async (asked: Promise<{ readonly headers: Readonly<Record<string, unknown>> }>): Promise<string> =>
  String((await asked).headers['set-cookie']).split(';')[0] ?? ''

/** A real desk in a folder of its own that searches briefly, behind the whole service, whose host has signed in. */
export async function hostedDesk(
  clock: Clock,
  through: (desk: Desk) => Desk = (same) => same,
  more: Partial<AppNeeds> = {},
) {
  const opened = await freshDesk({ pin: PIN, clock })
  const desk = through(searchingBriefly(opened.desk))
  const app = await realApp(desk, clock, more)
  const signIn = () => sessionOf(app.inject(asHost({ method: 'POST', url: '/api/session', payload: { pin: PIN } })))
  return {
    desk,
    app,
    /** The host's session. */
    cookie: await signIn(),
    /** Another session of the host. */
    signIn,
    async close(): Promise<void> {
      await app.close()
      await opened.close()
    },
  }
}

/** The same with the demo night. */
export async function hostedNight(...needs: Parameters<typeof hostedDesk>) {
  const hosted = await hostedDesk(...needs)
  const { desk, app, cookie } = hosted
  const night = seedEvening(desk, north)
  const send = (method: 'GET' | 'POST' | 'DELETE', url: string, payload?: object) =>
    app.inject(asHost({ method, url, headers: { cookie }, ...(payload && { payload }) }))
  return {
    ...hosted,
    night,
    /** A phone's session, let in by the code of the night as an operator of this name. */
    join(name: string): Promise<string> {
      const payload = { secret: desk.joins.codes(night.id).code, name, role: 'operator' }
      return sessionOf(app.inject(asVisitor({ method: 'POST', url: '/api/join', payload })))
    },
    /** Asks as the host. */
    send,
    /** Sends a form as the host. */
    post(url: string, fields: Readonly<Record<string, string>> = {}) {
      const form = formPost(url, fields)
      return app.inject(asHost({ ...form, headers: { ...form.headers, cookie } }))
    },
    /** A page as the host sees it. */
    page: async (url: string): Promise<string> => (await send('GET', url)).body,
    /** A page as a visitor sees it. */
    guest: async (url: string): Promise<string> => (await app.inject(asVisitor({ url }))).body,
  }
}
