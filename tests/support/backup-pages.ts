import { backupsPage, goBackPage } from '../../server/web/pages/backups.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { A_BAD_STATUS, A_COPY, A_DAMAGED_COPY, A_STATUS } from './fake-backups.ts'
import { HOST } from './page-data.ts'

const WENT_BACK = { path: `/data/${A_COPY.name}`, refusal: null, asideAt: '/data/set-aside/1', copiedTo: null }

/** The pages of the copies, full and empty. */
export const BACKUP_PAGES: {
  readonly [Name in 'backups' | 'go-back']: readonly [full: Pages[Name], empty: Pages[Name]]
} = {
  backups: [
    backupsPage(HOST, { ...A_BAD_STATUS, wentBack: WENT_BACK }, [A_COPY, A_DAMAGED_COPY]),
    backupsPage(HOST, { ...A_STATUS, isTimed: false, lastAt: null, second: null }, []),
  ],
  'go-back': [
    goBackPage(HOST, A_STATUS, A_COPY),
    goBackPage(HOST, A_STATUS, { ...A_COPY, bytes: 0, nights: 0, marks: 0 }),
  ],
}
