import type { FastifyInstance, InjectOptions } from 'fastify'
import { type AppNeeds, buildApp } from '../../server/app.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { DEFAULT_LIMITS, type Limits } from '../../server/web/limits.ts'
import type { MessageTable } from '../../server/words/words.ts'
import { fakeDesk, type Kept, NOW } from './fake-desk.ts'

export const HOST = 'localhost:8080'
export const HOST_COOKIE = 'duskrow-session=a-living-session'
export const LAN_HOST = '192.168.50.1:8080'
export const PHONE = '192.168.50.77'

/** A table in which every key stands for itself. */
const EVERY_WORD: MessageTable = new Proxy<Record<string, string>>(
  {},
  { get: (_table, key) => String(key), has: () => true },
)

/** Limits that no test reaches by accident. */
export const WIDE: Limits = {
  ...DEFAULT_LIMITS,
  requests: { max: 1_000_000, windowMs: 1_000 },
  marks: { max: 1_000_000, windowMs: 1_000 },
}

export interface TestApp {
  readonly app: FastifyInstance
  readonly desk: Desk
  readonly kept: Kept
}

/** The service over a fake desk, with pages as plain text of their models, called by two Host values. */
export async function testApp(more: Partial<AppNeeds> = {}): Promise<TestApp> {
  const { desk, kept } = fakeDesk()
  const app = await buildApp({
    desk,
    clock: { now: () => NOW, isRehearsal: true, speed: 1 },
    words: { en: EVERY_WORD },
    allowedHosts: () => new Set([HOST, LAN_HOST]),
    limits: WIDE,
    assets: { all: [], path: (name) => `/assets/${name}` },
    writePage: async (_app, name, model) => `<!doctype html><title>${name}</title>${Object.keys(model).length}`,
    ...more,
  })
  await app.ready()
  return { app, desk, kept }
}

/** A request as the host's own browser at the laptop sends it. */
export const asHost = (options: InjectOptions): InjectOptions => ({
  ...options,
  remoteAddress: '127.0.0.1',
  headers: { host: HOST, origin: `http://${HOST}`, cookie: HOST_COOKIE, ...options.headers },
})

/** A form as a browser sends it. */
export const formPost = (url: string, fields: Readonly<Record<string, string>>): InjectOptions => ({
  method: 'POST',
  url,
  headers: { 'content-type': 'application/x-www-form-urlencoded' },
  payload: new URLSearchParams(fields).toString(),
})

/** A request as a visitor's phone sends it. */
export const asVisitor = (options: InjectOptions): InjectOptions => ({
  ...options,
  remoteAddress: PHONE,
  headers: { host: LAN_HOST, origin: `http://${LAN_HOST}`, ...options.headers },
})
