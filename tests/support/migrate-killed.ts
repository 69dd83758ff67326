import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'

/** Run as a process of its own: upgrades a folder with migrations in which `die()` kills this process outright. */
const [folder = '', migrations = ''] = process.argv.slice(2)
const db = openDatabase(folder)
db.function('die', () => process.kill(process.pid, 'SIGKILL'))
migrate(db, migrations)
