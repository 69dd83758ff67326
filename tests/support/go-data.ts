import type { GoNight } from '../../server/desk/go.ts'
import { type GoReading, judgedReadings, proposalOf } from '../../server/tours/go-judge.ts'
import { SHIPPED_LIMITS } from '../../server/tours/go-limits.ts'
import { FIRST_PLAN, usualDecision } from '../../server/tours/go-plan.ts'
import type { Night } from '../../server/tours/night.ts'
import type { ThinCloud } from '../../server/tours/thin-cloud.ts'
import { goPage } from '../../server/web/pages/go.ts'
import { goLimitsPage } from '../../server/web/pages/go-limits.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { thinCloudPage } from '../../server/web/pages/thin-cloud.ts'
import { A_NIGHT } from './field-data.ts'
import { HOST, NAMES, TOUR, UNTOLD, VISITOR } from './page-data.ts'

const at = (time: string): Date => new Date(`2026-11-20T${time}:00Z`)

export const A_THIN: ThinCloud = {
  stops: TOUR.stops,
  notices: [{ code: 'tour.no-chair-station' }],
  notes: [{ code: 'thin.without', values: { from: '18:30', to: '19:00' } }],
}
export const NO_THIN: ThinCloud = { stops: [], notices: [], notes: [{ code: 'thin.nothing' }] }

const reading = (kind: GoReading['kind'], value: number, time: string): GoReading => ({
  kind,
  value,
  enteredAt: at(time),
  enteredBy: 'host',
})

/** A night on which nothing was entered or decided. */
export const nothingKnown = (night: Night): GoNight => {
  const judged = judgedReadings(SHIPPED_LIMITS, 'moonCloud', [])
  return {
    nightId: night.id,
    limits: SHIPPED_LIMITS,
    cloudLimit: 'moonCloud',
    plan: FIRST_PLAN,
    decisionAt: usualDecision(night),
    readings: [],
    judged,
    proposal: proposalOf(judged),
    decisions: [],
    written: null,
  }
}

export const A_DOUBTFUL_NIGHT: Night = { ...A_NIGHT, state: 'doubtful' }
const READINGS = [
  reading('temperature', -12, '15:00'),
  reading('thunder', 0, '14:00'),
  reading('cloud', 60, '14:00'),
  reading('cloud', 20, '08:00'),
]
const JUDGED = judgedReadings(SHIPPED_LIMITS, 'moonCloud', READINGS.toReversed())
const PLAN = { ...FIRST_PLAN, nextWordAt: '18:00', nextWordWhere: 'our website', decidesAt: '15:00' }

/** A night of which a good deal is known and that was decided otherwise than proposed. */
export const A_GO: GoNight = {
  ...nothingKnown(A_DOUBTFUL_NIGHT),
  plan: PLAN,
  readings: READINGS,
  judged: JUDGED,
  proposal: proposalOf(JUDGED),
  decisions: [
    {
      state: 'doubtful',
      proposed: 'off',
      why: 'It is to clear up from the west.',
      decidedAt: at('15:05'),
      decidedBy: 'host-phone',
      decidedName: 'Ines',
    },
  ],
}

/** The same with the host's own sentence, for what is so or for what was. */
export const withSentence = (text: string, holds: boolean): GoNight => ({ ...A_GO, written: { text, holds } })

const BLANK = { values: {}, problems: [] }
const WRONG = {
  values: { wind: 'strong', why: 'x' },
  problems: [
    { field: 'wind', key: 'problem.go-speed' },
    { field: 'sentence', key: 'problem.too-long', values: { maximum: 600 } },
    { field: 'wind.doubtful', key: 'problem.go-order' },
  ],
}

/** The board, the limits and the evening under thin cloud, each once with all that it can say and once with nothing. */
export const GO_PAGES: {
  readonly [Page in 'go' | 'go-limits' | 'thin-cloud']: readonly [full: Pages[Page], empty: Pages[Page]]
} = {
  go: [
    goPage(HOST, {
      night: A_DOUBTFUL_NIGHT,
      go: withSentence('Come early.', false),
      hasTour: true,
      thin: A_THIN,
      suggested: { date: '2026-11-27', brokenRules: 2 },
      names: NAMES,
      state: WRONG,
    }),
    goPage(VISITOR, {
      night: A_NIGHT,
      go: nothingKnown(A_NIGHT),
      hasTour: false,
      thin: null,
      suggested: null,
      names: UNTOLD,
      state: BLANK,
    }),
  ],
  'go-limits': [
    goLimitsPage(HOST, { night: A_NIGHT, hasTour: true, limits: SHIPPED_LIMITS, state: WRONG }),
    goLimitsPage(HOST, { night: A_NIGHT, hasTour: true, limits: SHIPPED_LIMITS, state: BLANK }),
  ],
  'thin-cloud': [
    thinCloudPage(HOST, { night: A_NIGHT, thin: A_THIN, hasTour: true, names: NAMES }),
    thinCloudPage(VISITOR, { night: A_NIGHT, thin: NO_THIN, hasTour: false, names: UNTOLD }),
  ],
}
