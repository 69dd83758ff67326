import type { Database } from 'better-sqlite3'
import { Value } from 'typebox/value'
import type { GoReading } from '../server/tours/go-judge.ts'
import { FIRST_PLAN, type GoDecision, GoPlan } from '../server/tours/go-plan.ts'

type ReadingRow = Omit<GoReading, 'enteredAt'> & { readonly enteredAt: string }
type DecisionRow = Omit<GoDecision, 'decidedAt'> & { readonly decidedAt: string }
type PlanRow = GoPlan & KeptSentence

/** A sentence that the host wrote, '' for none, with the facts for which it was written. */
export interface KeptSentence {
  readonly sentence: string
  readonly facts: string
}

export type GoStore = ReturnType<typeof goStore>

/** Every statement about what was entered, decided and published of whether nights take place. */
export function goStore(db: Database) {
  const readings = db.prepare<[string], ReadingRow>(`
    SELECT kind, value, entered_at AS enteredAt, entered_by AS enteredBy FROM go_reading WHERE night_id = ? ORDER BY seq`)
  const addReading = db.prepare<[ReadingRow & { readonly nightId: string }]>(`
    INSERT INTO go_reading (night_id, kind, value, entered_at, entered_by)
    VALUES (@nightId, @kind, @value, @enteredAt, @enteredBy)`)
  const decisions = db.prepare<[string], DecisionRow>(`
    SELECT state, proposed, why, decided_at AS decidedAt, decided_by AS decidedBy, decided_name AS decidedName
    FROM go_decision WHERE night_id = ? ORDER BY seq`)
  const addDecision = db.prepare<[DecisionRow & { readonly nightId: string }]>(`
    INSERT INTO go_decision (night_id, state, proposed, why, decided_at, decided_by, decided_name)
    VALUES (@nightId, @state, @proposed, @why, @decidedAt, @decidedBy, @decidedName)`)
  const setState = db.prepare<[string, string]>('UPDATE night SET state = ? WHERE id = ?')
  const plans = planStatements(db)
  const enterAll = db.transaction((nightId: string, entered: readonly GoReading[]): void => {
    for (const reading of entered) addReading.run({ ...reading, nightId, enteredAt: reading.enteredAt.toISOString() })
  })
  const decideFor = db.transaction((nightId: string, decision: GoDecision): void => {
    addDecision.run({ ...decision, nightId, decidedAt: decision.decidedAt.toISOString() })
    setState.run(decision.state, nightId)
  })

  return {
    ...plans,
    /** What was entered of a night, the first first. */
    readings: (nightId: string): readonly GoReading[] =>
      readings.all(nightId).map((row) => ({ ...row, enteredAt: new Date(row.enteredAt) })),
    enter: (nightId: string, entered: readonly GoReading[]): void => enterAll(nightId, entered),
    /** What was decided of a night, the first first. */
    decisions: (nightId: string): readonly GoDecision[] =>
      decisions.all(nightId).map((row) => ({ ...row, decidedAt: new Date(row.decidedAt) })),
    /** Keeps a decision, which is the state of the night from then on. */
    decide: (nightId: string, decision: GoDecision): void => decideFor(nightId, decision),
  }
}

function planStatements(db: Database) {
  const ofNight = db.prepare<[string], PlanRow>(`
    SELECT decides_at AS decidesAt, cloud_limit AS cloudLimit, next_word_at AS nextWordAt,
      next_word_where AS nextWordWhere, back_up_date AS backUpDate, sentence, sentence_facts AS facts
    FROM go_plan WHERE night_id = ?`)
  const put = db.prepare<[PlanRow & { readonly nightId: string }]>(`
    INSERT INTO go_plan (night_id, decides_at, cloud_limit, next_word_at, next_word_where, back_up_date, sentence,
      sentence_facts)
    VALUES (@nightId, @decidesAt, @cloudLimit, @nextWordAt, @nextWordWhere, @backUpDate, @sentence, @facts)
    ON CONFLICT (night_id) DO UPDATE SET decides_at = excluded.decides_at, cloud_limit = excluded.cloud_limit,
      next_word_at = excluded.next_word_at, next_word_where = excluded.next_word_where,
      back_up_date = excluded.back_up_date, sentence = excluded.sentence, sentence_facts = excluded.sentence_facts`)
  const rowOf = (nightId: string): PlanRow => ofNight.get(nightId) ?? { ...FIRST_PLAN, sentence: '', facts: '' }

  return {
    plan(nightId: string): GoPlan {
      const { sentence: _sentence, facts: _facts, ...plan } = rowOf(nightId)
      return Value.Parse(GoPlan, plan)
    },
    sentence(nightId: string): KeptSentence {
      const { sentence, facts } = rowOf(nightId)
      return { sentence, facts }
    },
    putPlan: (nightId: string, plan: GoPlan): void => void put.run({ ...rowOf(nightId), ...plan, nightId }),
    putSentence: (nightId: string, kept: KeptSentence): void => void put.run({ ...rowOf(nightId), ...kept, nightId }),
  }
}
