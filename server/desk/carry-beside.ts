import { Value } from 'typebox/value'
import { NO_VISIT } from '../tours/class-visit.ts'
import type { NightFile } from '../tours/night-file.ts'
import { NO_EDITS } from '../tours/report-edits.ts'
import { wishOf } from '../tours/wish.ts'
import { besideInFile } from './carry-out.ts'
import { type Part, part } from './carry-part.ts'
import type { Stores } from './stores.ts'

/** What was wished, decided, ticked, agreed and written of a night that is here. */
export function besideParts(stores: Stores, file: NightFile, now: Date): readonly Part[] {
  const { id } = file.night
  const here = () => besideInFile(stores, id)
  const visit = ({ classVisit }: Pick<NightFile, 'classVisit'>) => classVisit ?? NO_VISIT
  return [
    wishPart(stores, file),
    part({ name: 'go', here: () => goLeft(stores, file), there: NOTHING_LEFT, keep: () => keepGo(stores, file) }),
    part({
      name: 'checklist',
      here: () => here().checklist,
      there: { ...file.checklist, ticks: [...file.checklist.ticks].sort() },
      keep: () => keepChecklist(stores, file, now),
    }),
    part({
      name: 'class-visit',
      here: () => visit(here()),
      there: visit(file),
      keep: () => stores.classVisits.put(id, visit(file)),
    }),
    part({
      name: 'report',
      here: () => reportOf(here()),
      there: reportOf(file),
      keep: () => keepReport(stores, file, now),
    }),
  ]
}

function wishPart({ wishes }: Stores, { night, wishes: drafts }: NightFile): Part {
  const there = drafts.map((wish) => wishOf(wish, wish.id))
  const keep = () =>
    wishes.change(
      night.id,
      wishes.all(night.id).map(({ id }) => id),
      there,
    )
  return part({ name: 'wishes', here: () => wishes.all(night.id), there, keep })
}

type Go = NightFile['go']

const NOTHING_LEFT = { readings: [], decisions: [], isPlanSame: true }

/** What the file says of the weather and the decision that is not known here: readings and decisions are only ever added. */
function goLeft(stores: Stores, { night, go }: NightFile) {
  const { go: here } = besideInFile(stores, night.id)
  return {
    readings: go.readings.filter((it) => !here.readings.some((kept) => Value.Equal(kept, it))),
    decisions: go.decisions.filter((it) => !here.decisions.some((kept) => Value.Equal(kept, it))),
    isPlanSame: Value.Equal(planOf(here), planOf(go)),
  }
}

const planOf = ({ plan, sentence }: Go) => ({ plan, sentence })

function keepGo(stores: Stores, file: NightFile): void {
  const { id } = file.night
  const { readings, decisions } = goLeft(stores, file)
  stores.go.enter(
    id,
    readings.map((it) => ({ ...it, enteredAt: new Date(it.enteredAt) })),
  )
  for (const it of decisions) stores.go.decide(id, { ...it, decidedAt: new Date(it.decidedAt) })
  stores.go.putPlan(id, file.go.plan)
  stores.go.putSentence(id, file.go.sentence)
}

function keepChecklist({ checklists }: Stores, { night: { id }, checklist }: NightFile, now: Date): void {
  if (checklist.items === null) checklists.remove(id)
  else checklists.put(id, checklist.items, now)
  for (const item of checklists.ticks(id)) checklists.tick(id, item, false)
  for (const item of checklist.ticks) checklists.tick(id, item, true)
}

const reportOf = ({ report: { edits, closing } }: Pick<NightFile, 'report'>) => ({ edits: edits ?? NO_EDITS, closing })

function keepReport({ reports, nights }: Stores, { night: { id }, report }: NightFile, now: Date): void {
  const { edits, closing } = reportOf({ report })
  reports.putEdits(id, edits, now)
  if (closing) reports.close(id, closing.stateBefore, new Date(closing.closedAt))
  else if (nights.find(id)?.state === 'closed') reports.open(id)
}
