import { mkdtempSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { threadCopier } from '../../server/desk/copier.ts'
import { removeFolder } from '../support/desk-folder.ts'

const BELOW_NORMAL = 10
const TASKS = '/proc/self/task'

/** How much each thread of this process steps back, by its id. */
function steppingBack(): ReadonlyMap<string, number> {
  const threads = readdirSync(TASKS).map((id) => {
    // Behind the name, which may hold anything, come the state and then fifteen numbers before the one that is meant.
    const rest =
      readFileSync(join(TASKS, id, 'stat'), 'utf8')
        .split(') ')
        .at(-1)
        ?.split(' ') ?? []
    return [id, Number(rest[16])] as const
  })
  return new Map(threads)
}

it.skipIf(process.platform !== 'linux')(
  'makes copies in a thread that lets marks go first, and in that one alone',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
    const { close } = await openFolder(folder)
    const before = steppingBack()
    const copier = threadCopier()
    expect(await copier.copy(folder, 'timed-2026-12-17T17-20-00-000Z.db')).toBeNull()
    const during = [...steppingBack()]
    const mine = during.filter(([id, by]) => by === BELOW_NORMAL && before.get(id) !== BELOW_NORMAL)
    await copier.close()
    close()
    removeFolder(folder)
    expect(mine).toHaveLength(1)
    expect(mine[0]?.[0]).not.toBe(String(process.pid))
  },
)
