import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { rehearsalClock } from '../server/clock.ts'
import type { Config } from '../server/config.ts'
import { createDesk } from '../server/desk/create.ts'
import type { Desk } from '../server/desk/desk.ts'
import { makePin } from '../server/desk/pin.ts'
import { configOrExit, run, sayFirstStart } from '../server/main.ts'
import { instantOf } from '../server/tours/hours.ts'
import type { DemoEvening } from './evening.ts'
import { north } from './north.ts'
import { seedEvening } from './seed.ts'
import { south } from './south.ts'

const hasFlag = (args: readonly string[], flag: string): boolean =>
  args.some((arg) => arg === flag || arg.startsWith(`${flag}=`))

const startOf = ({ night, site, rehearsesFrom }: DemoEvening): Date => instantOf({ ...night, site }, rehearsesFrom)

/** A folder that goes with the process. */
function passingFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-demo-'))
  process.on('exit', () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }))
  return folder
}

/** Fills the folder before the service opens it, on the first of the evenings so that none is in the past. */
async function fill(config: Config): Promise<void> {
  const desk = await createDesk({
    ...config,
    clock: rehearsalClock(startOf(north)),
    proofRounds: 0,
    beforeBuild: sayFirstStart,
  })
  try {
    for (const evening of [north, south]) {
      const { id } = seedEvening(desk, evening)
      await desk.tours.build(id)
      if (evening === north) sayGo(desk, id)
    }
  } finally {
    await desk.close()
  }
}

/** The demo opens on an evening that takes place. */
function sayGo(desk: Desk, nightId: string): void {
  const host = { role: 'host', name: 'host' } as const
  desk.go.enter(nightId, { cloud: 20, wind: 8, temperature: 3, rain: 0 }, host)
  desk.go.decide(nightId, 'on', 'The forecast is for a clear, calm evening.', host)
}

const args = process.argv.slice(2)
if (hasFlag(args, '--data')) {
  console.error('The demo keeps nothing, so it takes no --data.')
  process.exit(1)
}
const asked = configOrExit(args)
const config = { ...asked, pin: asked.pin ?? makePin(), folder: passingFolder() }
await fill(config)
const clock = hasFlag(args, '--clock') ? asked.clock : rehearsalClock(startOf(north), asked.clock.speed)
await run({ ...config, clock })
