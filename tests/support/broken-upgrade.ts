import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { migrate } from '../../db/migrate.ts'
import { openQuickly, type Place, problemsAfter, type Upgrades } from './upgrades.ts'

const ROOT = join(import.meta.dirname, '../..')

/** Kills a process outright in the middle of an upgrade; answers what is wrong afterwards. */
export function killUpgrade(upgrades: Upgrades, place: Place): readonly string[] {
  const folder = upgrades.copyOf(place.from)
  const migrations = upgrades.brokenAt(place, 'SELECT die()')
  const script = 'tests/support/migrate-killed.ts'
  const { signal } = spawnSync(process.execPath, ['--import', 'tsx', script, folder, migrations], { cwd: ROOT })
  const problems = problemsAfter(upgrades, place, folder)
  upgrades.forget(folder, migrations)
  return signal === 'SIGKILL' ? problems : [`${JSON.stringify(place)}: was not killed`, ...problems]
}

/** Lets an upgrade fail at a place; answers what is wrong afterwards. */
export function breakUpgrade(upgrades: Upgrades, place: Place): readonly string[] {
  const folder = upgrades.copyOf(place.from)
  const migrations = upgrades.brokenAt(place, 'INSERT INTO nowhere VALUES (1)')
  const failed = failing(folder, migrations)
  const problems = problemsAfter(upgrades, place, folder)
  upgrades.forget(folder, migrations)
  return failed.includes('nowhere') ? problems : [`${JSON.stringify(place)}: ${failed}`, ...problems]
}

/** How an upgrade failed. */
function failing(folder: string, migrations: string): string {
  const db = openQuickly(folder)
  try {
    migrate(db, migrations)
    return 'did not fail'
  } catch (error) {
    return String(error)
  } finally {
    db.close()
  }
}
