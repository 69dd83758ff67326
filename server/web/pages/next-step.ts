import { isDecisionDue } from '../../tours/go-plan.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { BoardSubject } from './board.ts'
import { mayLead, type Viewer } from './sheet.ts'

/** The one obvious thing to do now: a link, or a form when `isPost`. */
export interface NextStep {
  readonly code: string
  readonly text: string
  readonly button: string
  readonly href: string
  readonly isPost: boolean
  /** What may come before it; null when nothing does. */
  readonly also: { readonly href: string; readonly text: string } | null
}

/** The next step by what is there and what time it is; readers are led to what they may do. */
export function nextStep(viewer: Viewer, subject: BoardSubject): NextStep {
  const code = stepCode(viewer, subject)
  return {
    code,
    text: viewer.words.say(`page.step-${code}`),
    button: viewer.words.say(`page.step-${code}-button`),
    href: stepHref(code, subject.night?.id ?? ''),
    isPost: code === 'build' || code === 'rebuild',
    also: alsoOf(viewer, code, subject),
  }
}

function alsoOf({ words }: Viewer, code: StepCode, { siteCount }: BoardSubject): NextStep['also'] {
  if (code === 'night') return { href: '/dates', text: words.say('dates.also') }
  if (code !== 'start') return null
  return siteCount === 0
    ? { href: '/sites/new', text: words.say('start.also-site') }
    : { href: '/telescopes/new', text: words.say('start.also-telescope') }
}

type StepCode =
  | 'sign-in'
  | 'start'
  | 'night'
  | 'build'
  | 'rebuild'
  | 'decide'
  | 'print'
  | 'check'
  | 'look-back'
  | 'over'
  | 'wait'

function stepCode(viewer: Viewer, subject: BoardSubject): StepCode {
  const { night, tour, state, go, siteCount, telescopeCount } = subject
  if (night && tour) {
    const step = stepOfNight(night, viewer.now)
    if (step === 'look-back' && !viewer.mayAct) return 'over'
    if (step === 'print' && mayLead(viewer) && go && isDecisionDue(night, go.decisionAt, viewer.now)) return 'decide'
    return step === 'print' && mayLead(viewer) && state?.isStale && !state.waiting ? 'rebuild' : step
  }
  if (night) return mayLead(viewer) ? 'build' : 'wait'
  if (!viewer.mayHost) return 'sign-in'
  return siteCount === 0 || telescopeCount === 0 ? 'start' : 'night'
}

function stepOfNight(night: Night, now: Date): StepCode {
  const { opensAt, closesAt } = nightHours(night)
  if (now >= closesAt) return 'look-back'
  return now.getTime() >= opensAt.getTime() - 30 * 60_000 ? 'check' : 'print'
}

function stepHref(code: StepCode, id: string): string {
  const hrefs: Record<StepCode, string> = {
    'sign-in': '/sign-in',
    start: '/start',
    night: '/nights/new',
    build: `/nights/${id}/programme`,
    rebuild: `/nights/${id}/programme`,
    decide: `/nights/${id}/go`,
    print: `/nights/${id}/papers`,
    check: `/nights/${id}/check`,
    'look-back': `/nights/${id}/report`,
    over: `/nights/${id}/programme`,
    wait: '/nights',
  }
  return hrefs[code]
}
