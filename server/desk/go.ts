import { Value } from 'typebox/value'
import type { DateRuleStore } from '../../db/date-rules.ts'
import type { GoStore } from '../../db/go.ts'
import { fromJson } from '../../db/json.ts'
import type { SettingStore } from '../../db/settings.ts'
import type { Clock } from '../clock.ts'
import { Fault, invalid, refuse } from '../errors.ts'
import { FIRST_RULES } from '../tours/date-rules.ts'
import {
  type CloudLimit,
  type GoActor,
  type GoReading,
  type GoState,
  type GoValues,
  type Judged,
  judgedReadings,
  type Proposal,
  proposalOf,
  READING_KINDS,
} from '../tours/go-judge.ts'
import { GoLimits, goLimitProblems, SHIPPED_LIMITS } from '../tours/go-limits.ts'
import { decisionAt, type GoDecision, GoPlan, goPlanProblems, sentenceFacts } from '../tours/go-plan.ts'
import { goValueProblems } from '../tours/go-values.ts'
import type { Night } from '../tours/night.ts'
import type { ThinCloud } from '../tours/thin-cloud.ts'
import type { Who } from './desk.ts'
import { type ThinNeeds, thinCloudAsker } from './thin-cloud.ts'

/** All that is known of whether a night takes place. */
export interface GoNight {
  readonly nightId: string
  readonly limits: GoLimits
  /** Which limit of cloud holds tonight. */
  readonly cloudLimit: CloudLimit
  readonly plan: GoPlan
  readonly decisionAt: Date
  /** Everything that was entered, the newest first. */
  readonly readings: readonly GoReading[]
  readonly judged: readonly Judged[]
  readonly proposal: Proposal
  /** Everything that was decided, the newest first. */
  readonly decisions: readonly GoDecision[]
  /** What the host wrote to be published; `holds` while all that it was written for is so. Null without it. */
  readonly written: { readonly text: string; readonly holds: boolean } | null
}

/** Who enters or decides. */
type Decider = Pick<Who, 'role' | 'name'>

/** Whether nights take place. The host decides; what is proposed and what was decided are both kept. */
export interface GoDesk {
  /** The host's own limits, or those that ship. */
  limits(): GoLimits
  /** Keeps limits for all nights; an invalid Fault names what is wrong. */
  keepLimits(draft: unknown): void
  of(nightId: string): GoNight
  /** Keeps what was seen, beside what was entered before. */
  enter(nightId: string, values: GoValues, by: Decider): void
  /** Decides: the only way in which a night comes to be on, doubtful or off. */
  decide(nightId: string, state: GoState, why: string, by: Decider): void
  plan(nightId: string, draft: unknown): void
  /** Keeps the host's own sentence in place of the one that is made; '' goes back to that. */
  write(nightId: string, sentence: string): void
  /** What the row would show through thin cloud. */
  thinCloud(nightId: string): Promise<ThinCloud>
}

export type GoNeeds = ThinNeeds & {
  readonly go: GoStore
  readonly settings: Pick<SettingStore, 'find' | 'put'>
  readonly dateRules: Pick<DateRuleStore, 'find'>
  readonly clock: Clock
}

const LIMITS_KEY = 'go-limits'
const MOST_WHY = 200
const MOST_SENTENCE = 600

export function goDesk(needs: GoNeeds): GoDesk {
  const { go, settings, findNight, clock } = needs
  const limits = (): GoLimits => {
    const kept = settings.find(LIMITS_KEY)
    return kept === undefined ? SHIPPED_LIMITS : fromJson(GoLimits, kept)
  }
  function openNight(nightId: string): Night {
    const night = findNight(nightId)
    if (night.state === 'closed') throw new Fault('conflict', 'fault.go-closed')
    return night
  }
  const of = (nightId: string): GoNight => goNight(needs, findNight(nightId), limits())

  return {
    limits,
    keepLimits(draft) {
      refuse(goLimitProblems(draft))
      settings.put(LIMITS_KEY, JSON.stringify(draft))
    },
    of,
    enter(nightId, values, by) {
      const { id } = openNight(nightId)
      refuse(goValueProblems(values))
      go.enter(id, readingsOf(values, clock.now(), actorOf(by)))
    },
    decide(nightId, state, why, by) {
      const { proposal } = of(openNight(nightId).id)
      const plain = oneLine(why, 'why', MOST_WHY)
      const decided = { decidedAt: clock.now(), decidedBy: actorOf(by), decidedName: by.name }
      go.decide(nightId, { state, proposed: proposal.state, why: plain, ...decided })
    },
    plan(nightId, draft) {
      const night = findNight(nightId)
      refuse(goPlanProblems(draft, night))
      go.putPlan(night.id, Value.Parse(GoPlan, draft))
    },
    write(nightId, sentence) {
      const night = findNight(nightId)
      const text = oneLine(sentence, 'sentence', MOST_SENTENCE)
      go.putSentence(night.id, { sentence: text, facts: text === '' ? '' : sentenceFacts(night, go.plan(night.id)) })
    },
    thinCloud: thinCloudAsker(needs),
  }
}

function goNight({ go, dateRules }: GoNeeds, night: Night, limits: GoLimits): GoNight {
  const plan = go.plan(night.id)
  const kind = (dateRules.find(night.site.id) ?? FIRST_RULES).kind
  const cloudLimit = plan.cloudLimit ?? (kind === 'dark-site' ? 'cloud' : 'moonCloud')
  const readings = go.readings(night.id)
  const judged = judgedReadings(limits, cloudLimit, readings)
  const { sentence, facts } = go.sentence(night.id)
  return {
    nightId: night.id,
    limits,
    cloudLimit,
    plan,
    decisionAt: decisionAt(night, plan.decidesAt),
    readings: readings.toReversed(),
    judged,
    proposal: proposalOf(judged),
    decisions: go.decisions(night.id).toReversed(),
    written: sentence === '' ? null : { text: sentence, holds: facts === sentenceFacts(night, plan) },
  }
}

const actorOf = ({ role }: Decider): GoActor => (role === 'host' ? 'host' : 'host-phone')

const readingsOf = (values: GoValues, enteredAt: Date, enteredBy: GoActor): readonly GoReading[] =>
  READING_KINDS.flatMap((kind) => {
    const value = values[kind]
    return value === undefined ? [] : [{ kind, value, enteredAt, enteredBy }]
  })

function oneLine(text: string, field: string, maximum: number): string {
  const plain = text.trim().replace(/\s+/g, ' ')
  if (plain.length > maximum) throw invalid([{ field, key: 'problem.too-long', values: { maximum } }])
  return plain
}
