import { type AlignmentNeeds, alignmentDesk } from './alignment.ts'
import type { Desk } from './desk.ts'
import { type FaultNeeds, faultDesk } from './faults.ts'
import { type GoNeeds, goDesk } from './go.ts'
import { type ReportNeeds, reportDesk } from './reports.ts'

type Needs = AlignmentNeeds & FaultNeeds & GoNeeds & Omit<ReportNeeds, 'goOf' | 'reckon'>

/** Whether the night takes place, what operators ask while they set up, and what is told of it afterwards. */
export function settingUp(needs: Needs): Pick<Desk, 'alignment' | 'faults' | 'go' | 'reports'> {
  const go = goDesk(needs)
  return {
    alignment: alignmentDesk(needs),
    faults: faultDesk(needs),
    go,
    reports: reportDesk({
      ...needs,
      goOf: go.of,
      reckon: (input) => needs.jobs.run<'report'>({ kind: 'report', ...input }),
    }),
  }
}
