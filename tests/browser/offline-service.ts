import { copyFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import type { FastifyInstance } from 'fastify'
import type { BrowserContext } from 'playwright-core'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { buildApp } from '../../server/app.ts'
import type { Clock } from '../../server/clock.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Mark, MarkDraft } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { readWordTables } from '../../server/web/language.ts'
import { FIELD_NAME } from '../support/chromium.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder } from '../support/desk-folder.ts'
import { WIDE } from '../support/web.ts'

/** In the middle of the second half hour of the demo night, 18:40 by its clocks. */
const EVENING = '2026-12-17T17:40:00Z'
const STEPS = 2_000
const PIN = '271828'

const USUAL_SLOWNESS = 20

/** A clock so slow that no minute passes in a test, and yet runs, so that of two acts the later one is later. */
function slowClock(at: string, slowness: number): Clock & { moveTo(at: string): void } {
  let [start, begun] = [new Date(at), Date.now()]
  return {
    now: () => new Date(start.getTime() + Math.floor((Date.now() - begun) / slowness)),
    isRehearsal: true,
    speed: 1 / slowness,
    moveTo(later) {
      ;[start, begun] = [new Date(later), Date.now()]
    },
  }
}

/** The service as phones reach it: under a name that is not the laptop's own, with a night and its programme. */
export class FieldService {
  readonly clock: ReturnType<typeof slowClock>
  private readonly folder = freshFolder()
  private readonly words = readWordTables()
  private app: FastifyInstance | undefined
  private open: Desk | undefined
  private port = 0
  private losesAnswer = false
  private atNight: Night | undefined

  /** `slowness` 1 for a clock that runs as fast as any other. */
  constructor(slowness = USUAL_SLOWNESS) {
    this.clock = slowClock(AFTERNOON, slowness)
  }

  get desk(): Desk {
    if (!this.open) throw new Error('The service is not running')
    return this.open
  }
  get night(): Night {
    if (!this.atNight) throw new Error('There is no night yet')
    return this.atNight
  }
  private laptop(): string {
    return `127.0.0.1:${this.port}`
  }
  get url(): string {
    return `http://${FIELD_NAME}:${this.port}`
  }

  /** Starts the service, on the same port each time. */
  async start(): Promise<void> {
    this.open = await openDesk(this.folder, { clock: this.clock, pin: PIN })
    const hosts = () => new Set([`${FIELD_NAME}:${this.port}`, this.laptop()])
    const needs = { desk: this.open, clock: this.clock, words: this.words, limits: WIDE, allowedHosts: hosts }
    this.app = await buildApp(needs)
    this.app.server.prependListener('request', (request, response) => {
      if (!this.losesAnswer || request.method !== 'POST') return
      this.losesAnswer = false
      response.writeHead = () => {
        request.socket.destroy()
        return response
      }
    })
    const address = await this.app.listen({ port: this.port, host: '127.0.0.1' })
    this.port = Number(new URL(address).port)
    if (this.atNight) return
    this.atNight = seedEvening(this.open, north)
    await this.open.tours.build(this.atNight.id, { steps: STEPS })
    this.clock.moveTo(EVENING)
  }

  /** Breaks the line of the next act that comes, once it is kept and before it is answered. */
  loseAnswer(): void {
    this.losesAnswer = true
  }

  async stop(): Promise<void> {
    await this.app?.close()
    await this.open?.close()
    this.open = undefined
  }

  async end(): Promise<void> {
    await this.stop()
    removeFolder(this.folder)
  }

  /** Copies what the folder holds while the service is stopped; answers how to put that back. */
  backUp(): () => void {
    const [file, copy] = ['duskrow.db', 'before.db'].map((name) => join(this.folder, name)) as [string, string]
    copyFileSync(file, copy)
    return () => {
      for (const rest of ['-wal', '-shm']) rmSync(file + rest, { force: true })
      copyFileSync(copy, file)
    }
  }

  /** Lets a phone in as an operator. */
  async join(context: BrowserContext, name: string): Promise<void> {
    await context.addCookies([{ name: 'duskrow-session', value: this.session(name), url: this.url }])
  }

  /** The session of a phone that is let in as an operator. */
  session(name: string): string {
    const { token: secret } = this.desk.joins.codes(this.night.id)
    return this.desk.joins.join({ secret, name, role: 'operator', phoneMs: null, address: name }).token
  }

  /** The page of a station in its operator's hand. */
  stationPage(place = 0): string {
    return `${this.url}/field/${this.night.id}/${this.night.stations[place]?.id}`
  }

  /** The night's version now. */
  version(): string {
    return this.desk.marks.version(this.night.id)
  }

  /** Sends an act from the host's own page at the laptop. */
  async record(act: Omit<MarkDraft, 'secondsAgo'>): Promise<void> {
    const host = this.laptop()
    const cookie = `duskrow-session=${await this.desk.sessions.signIn(PIN)}`
    const answer = await this.app?.inject({
      method: 'POST',
      url: `/api/nights/${this.night.id}/marks`,
      remoteAddress: '127.0.0.1',
      headers: { host, origin: `http://${host}`, cookie },
      payload: { marks: [{ ...act, secondsAgo: 0 }] },
    })
    if (answer?.statusCode !== 200) throw new Error(answer?.body)
  }

  marks(): readonly Mark[] {
    return this.desk.marks.since(this.night.id, 0)
  }
}
