import { linkSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Clock } from '../../server/clock.ts'
import { createDesk, type DeskOptions } from '../../server/desk/create.ts'
import type { Desk } from '../../server/desk/desk.ts'

const SHARED = join(tmpdir(), 'duskrow-test-catalogue')
/** How long the first desk of all may take: it builds the catalogue that the others share. */
export const SLOW_MS = 120_000
/** Hours before the demo night opens, when its programme is still made from nothing. */
export const AFTERNOON = '2026-12-17T14:00:00Z'
const CATALOGUE = /^catalogue-[0-9a-f]+\.db$/

/** A clock that stands still where a test puts it. */
export function standingClock(at: string): Clock & { moveTo(at: string): void } {
  let now = new Date(at)
  return {
    now: () => now,
    isRehearsal: true,
    speed: 1,
    moveTo(later) {
      now = new Date(later)
    },
  }
}

/** A fresh data folder; catalogues built by earlier tests are linked in, since building one takes seconds. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  mkdirSync(SHARED, { recursive: true })
  linkCatalogues(SHARED, folder)
  return folder
}

/** Opens a desk; whatever catalogue it had to build is shared with later tests. */
export async function openDesk(folder: string, options: Partial<DeskOptions> = {}) {
  const clock = standingClock('2026-12-17T17:20:00Z')
  const desk = await createDesk({
    folder,
    clock,
    pin: '271828',
    commit: 'test',
    version: '0.0.0',
    proofRounds: 0,
    ...options,
  })
  linkCatalogues(folder, SHARED)
  return desk
}

/** A desk in a folder of its own; closing it takes the folder away. */
export async function freshDesk(options: Partial<DeskOptions> = {}) {
  const folder = freshFolder()
  const desk = await openDesk(folder, options)
  return {
    desk,
    async close(): Promise<void> {
      await desk.close()
      removeFolder(folder)
    },
  }
}

/** The same desk, whose searches are short where nobody says how long: for tests of what is said about a programme. */
export const searchingBriefly = (desk: Desk, steps = 20_000): Desk => ({
  ...desk,
  tours: { ...desk.tours, build: (nightId, options) => desk.tours.build(nightId, { steps, ...options }) },
})

/** Takes a data folder away. */
export const removeFolder = (folder: string): void => rmSync(folder, { recursive: true, force: true, maxRetries: 3 })

function linkCatalogues(from: string, to: string): void {
  for (const name of readdirSync(from).filter((file) => CATALOGUE.test(file))) {
    try {
      linkSync(join(from, name), join(to, name))
    } catch (error) {
      // Another test may have shared the same one, or cleared an old one away, a moment ago.
      const code = error instanceof Error && 'code' in error ? error.code : ''
      if (code !== 'EEXIST' && code !== 'ENOENT') throw error
    }
  }
}
