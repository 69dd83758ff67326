import type { KeptSentence } from '../../db/go.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { goDesk } from '../../server/desk/go.ts'
import type { GoReading } from '../../server/tours/go-judge.ts'
import { FIRST_PLAN, type GoDecision, type GoPlan } from '../../server/tours/go-plan.ts'
import type { Night } from '../../server/tours/night.ts'
import { A_THIN } from './go-data.ts'

interface Known {
  readonly nights: Night[]
}

/** The real desk over lists in memory, so that it refuses what that refuses; thin cloud is always the same. */
export function fakeGo(kept: Known, night: (id: string) => Night, now: Date): Desk['go'] {
  const readings: (GoReading & { readonly nightId: string })[] = []
  const decisions: (GoDecision & { readonly nightId: string })[] = []
  const plans = new Map<string, GoPlan>()
  const sentences = new Map<string, KeptSentence>()
  const settings = new Map<string, string>()
  const of = <Thing extends { readonly nightId: string }>(list: readonly Thing[], id: string) =>
    list.filter(({ nightId }) => nightId === id)
  const made = goDesk({
    go: {
      readings: (id) => of(readings, id),
      enter: (nightId, entered) => void readings.push(...entered.map((reading) => ({ ...reading, nightId }))),
      decisions: (id) => of(decisions, id),
      decide(nightId, decision) {
        decisions.push({ ...decision, nightId })
        const at = kept.nights.findIndex(({ id }) => id === nightId)
        kept.nights.splice(at, 1, { ...night(nightId), state: decision.state })
      },
      plan: (id) => plans.get(id) ?? FIRST_PLAN,
      putPlan: (id, plan) => void plans.set(id, plan),
      sentence: (id) => sentences.get(id) ?? { sentence: '', facts: '' },
      putSentence: (id, sentence) => void sentences.set(id, sentence),
    },
    settings: { find: (key) => settings.get(key), put: (key, value) => void settings.set(key, value) },
    dateRules: { find: () => undefined },
    findNight: night,
    wishes: { all: () => [] },
    own: () => [],
    jobs: { run: () => Promise.reject(new Error('No worker here')) },
    clock: { now: () => now, isRehearsal: true, speed: 1 },
  })
  return { ...made, thinCloud: async (id) => ({ ...A_THIN, notes: A_THIN.notes.filter(() => night(id)) }) }
}
