import { type AlignmentNeeds, alignmentDesk } from './alignment.ts'
import type { Desk } from './desk.ts'
import { type FaultNeeds, faultDesk } from './faults.ts'

/** What operators ask while they set up. */
export const settingUp = (needs: AlignmentNeeds & FaultNeeds): Pick<Desk, 'alignment' | 'faults'> => ({
  alignment: alignmentDesk(needs),
  faults: faultDesk(needs),
})
