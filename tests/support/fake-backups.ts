import type { BackupDesk, BackupStatus, CopySeen } from '../../server/desk/backups.ts'
import { notFound } from '../../server/errors.ts'

const at = (text: string): Date => new Date(`2026-11-14T${text}Z`)

export const A_COPY: CopySeen = {
  name: 'timed-2026-11-14T17-40-00-000Z.db',
  kind: 'timed',
  madeAt: at('17:40:00'),
  state: 'whole',
  bytes: 1_240_000,
  schema: 12,
  nights: 2,
  marks: 140,
  refusal: null,
}
export const A_DAMAGED_COPY: CopySeen = {
  ...A_COPY,
  name: 'before-migration-2-2026-11-13T17-40-00-000Z.db',
  kind: 'before-migration',
  madeAt: new Date('2026-11-13T17:40:00Z'),
  state: 'damaged',
  refusal: 'damaged',
}

/** All is well: a copy of a moment ago, in the second folder too. */
export const A_STATUS: BackupStatus = {
  isTimed: true,
  lastAt: A_COPY.madeAt,
  laptop: { now: at('17:45:00'), zone: 'Europe/Berlin' },
  isLate: false,
  trouble: null,
  second: { trouble: null, lastAt: A_COPY.madeAt, isOnSameDisk: false },
  goesBackTo: null,
  wentBack: null,
}
/** Nothing is well. */
export const A_BAD_STATUS: BackupStatus = {
  ...A_STATUS,
  isLate: true,
  trouble: 'full',
  second: { trouble: 'missing', lastAt: null, isOnSameDisk: false },
  goesBackTo: A_COPY,
  wentBack: { path: '/stick/other.db', refusal: 'newer', asideAt: null, copiedTo: null },
}

/** Copies of a fake desk: one, to which it can go back. */
export function fakeBackups(): BackupDesk {
  let goesBackTo: CopySeen | null = null
  const find = async (name: string) => {
    if (name !== A_COPY.name) throw notFound('copy')
    return A_COPY
  }
  return {
    status: () => ({ ...A_STATUS, goesBackTo }),
    copy: async () => {},
    all: async () => [A_COPY],
    find,
    async goBack(name) {
      goesBackTo = await find(name)
    },
    stay() {
      goesBackTo = null
    },
  }
}
