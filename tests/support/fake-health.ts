import type { HealthAnswer } from '../../server/desk/desk.ts'

/** How a fake desk is, but for the time that it is. */
export const A_HEALTH: Omit<HealthAnswer, 'now'> = {
  version: '0.1.0',
  commit: 'none',
  isRehearsal: true,
  counts: { stars: 1, outreach: 1, places: 1 },
  sqlite: { version: '3.53.2', journalMode: 'wal', synchronous: 2 },
}
