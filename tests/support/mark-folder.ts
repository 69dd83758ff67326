import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { openFolder } from '../../db/folder.ts'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { newId } from '../../server/desk/ids.ts'
import { nightDesk } from '../../server/desk/nights.ts'
import { siteDesk } from '../../server/desk/sites.ts'
import { openStores } from '../../server/desk/stores.ts'
import { telescopeDesk } from '../../server/desk/telescopes.ts'
import { bundlePath, bundleProgram } from './bundled-program.ts'
import { standingClock } from './desk-folder.ts'

const TAKER = 'mark-taker'

/** Bundles the process that takes marks, so that each of many starts costs little; answers how to take the bundle away. */
export async function bundleTaker(): Promise<() => void> {
  await bundleProgram(TAKER)
  return () => rmSync(bundlePath(TAKER))
}

/** A fresh data folder with the demo night in it and no catalogue, for tests about marks alone. */
export async function folderWithNight(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const { db, close } = await openFolder(folder)
  const stores = openStores(db)
  const clock = standingClock('2026-12-17T17:20:00Z')
  const nights = nightDesk({ ...stores, clock })
  seedEvening({ sites: siteDesk(stores), telescopes: telescopeDesk(stores), nights }, north)
  close()
  return folder
}

/** How the process takes marks; the last two are wrong on purpose. */
export type Manner = 'careful' | 'careless' | 'hasty'

/** The command line of a process that takes marks on that folder's night; it needs the bundle. */
export const takerArgs = (
  folder: string,
  prefix: string,
  count: number,
  manner: Manner = 'careful',
  mostTogether = 3,
) => [process.execPath, bundlePath(TAKER), folder, prefix, String(count), manner, String(mostTogether)]

/** Lets a process take marks and kills it outright at its `killAt`-th acknowledgement; answers all keys that it acknowledged. */
export async function takeUntilKilled(folder: string, killAt: number): Promise<{ prefix: string; acked: string[] }> {
  const prefix = `run-${newId()}`
  const [program = '', ...args] = takerArgs(folder, prefix, 100_000)
  const taker = spawn(program, args, { stdio: ['ignore', 'pipe', 'inherit'] })
  const acked: string[] = []
  for await (const line of createInterface({ input: taker.stdout })) {
    if (/^ack \S{10,}$/.test(line)) acked.push(line.slice(4))
    if (acked.length === killAt) taker.kill('SIGKILL')
  }
  return { prefix, acked }
}
