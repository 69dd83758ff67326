import { setTimeout as wait } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Night } from '../../server/tours/night.ts'
import { FIELD_NAME } from '../support/chromium.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'
import { playNight } from '../support/played-night.ts'
import { judgeActs, judgePeople, judgeShowings } from '../support/played-report.ts'
import type { PlayedNeeds } from '../support/played-stage.ts'
import { realAsking } from '../support/real-asking.ts'
import { ended, type RunningService, startService } from '../support/running-service.ts'
import { asHost, asVisitor } from '../support/web.ts'

const PIN = '271828'
const SPEED = 60
/** Half an hour of the evening, half a minute of ours, before the script begins. */
const STARTS = '2026-12-17T16:25:00Z'
/** A script that acts a moment late and never early reads every line after its half hour has begun. */
const LATE_MS = 20
/** By the evening's clock: something else might be shown by then than what the script acts on. */
const LATEST_MS = 180_000

const folder = freshFolder()
let service: RunningService
let night: Night
let code = ''

beforeAll(async () => {
  const desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  night = seedEvening(desk, north)
  await desk.tours.build(night.id, { steps: 20_000 })
  code = desk.joins.codes(night.id).code
  await desk.close()
  service = await startService(folder, ['--clock', STARTS, '--speed', `${SPEED}`, '--pin', PIN, '--name', FIELD_NAME])
    .open
}, 300_000)
afterAll(async () => {
  if (service) await ended(service.child, 'SIGTERM')
  removeFolder(folder)
})

/** Waits until the clock of the service has come to an instant; fails when it has long passed it. */
async function clockOf(ask: PlayedNeeds['ask']): Promise<(at: string) => Promise<void>> {
  const askedAtMs = performance.now()
  const { field } = (await ask(asVisitor({ url: `/api/nights/${night.id}/changes` }))).json()
  const toldMs = (askedAtMs + performance.now()) / 2
  const eveningMs = (): number => Date.parse(field.at) + (performance.now() - toldMs) * SPEED
  return async (at) => {
    const aheadMs = Date.parse(at) - eveningMs()
    if (aheadMs < -LATEST_MS)
      throw new Error(`The script comes ${-aheadMs / 60_000} minutes of the evening too late to ${at}`)
    if (aheadMs / SPEED > -LATE_MS) await wait(aheadMs / SPEED + LATE_MS)
  }
}

it(`the demo night, played through at ${SPEED} times its speed with four operators, ends in the script’s report`, async () => {
  const ask = realAsking(service.url, FIELD_NAME)
  const session = await ask(asHost({ method: 'POST', url: '/api/session', payload: { pin: PIN } }))
  const cookie = String(session.headers['set-cookie']).split(';')[0] ?? ''
  const notes = await playNight({ ask, night, code, hostCookie: cookie, moveTo: await clockOf(ask) })
  const form = { cookie, 'content-type': 'application/x-www-form-urlencoded' }
  const closing = { method: 'POST', url: `/nights/${night.id}/report/close`, headers: form, payload: '' } as const
  expect((await ask(asHost(closing))).statusCode).toBe(303)
  const report = (await ask(asHost({ url: `/api/nights/${night.id}/report`, headers: { cookie } }))).json()
  judgeShowings(report, notes)
  judgePeople(report, notes)
  judgeActs(report, notes)
  const showings = notes.stations.flatMap((station) => station.noted)
  console.log(
    `${report.looks} looks at ${showings.length} showings, ${notes.waits.length} waits, most at once ${notes.peak.people}: as the script counted`,
  )
})
