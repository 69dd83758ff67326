import { isDecisionDue } from '../../tours/go-plan.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { BoardSubject } from './board.ts'
import { ASSUMED_NOTE } from './kit-note.ts'
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

function alsoOf({ words, mayHost }: Viewer, code: StepCode, { night, siteCount }: BoardSubject): NextStep['also'] {
  if (night && mayHost && (code === 'print' || code === 'rebuild') && hasAssumed(night))
    return { href: `/nights/${night.id}/start`, text: words.say('start.also-assumed') }
  if (code === 'night') return { href: '/dates', text: words.say('dates.also') }
  if (code !== 'start') return null
  return siteCount === 0
    ? { href: '/sites/new', text: words.say('start.also-site') }
    : { href: '/telescopes/new', text: words.say('start.also-telescope') }
}

/** True while a telescope of the row is what was made of a few words. */
const hasAssumed = ({ stations }: Night): boolean => stations.some(({ telescope }) => telescope?.note === ASSUMED_NOTE)

type StepCode =
  | 'sign-in'
  | 'start'
  | 'night'
  | 'build'
  | 'rebuild'
  | 'decide'
  | 'print'
  | 'read'
  | 'set-up'
  | 'check'
  | 'visit'
  | 'close'
  | 'off'
  | 'off-read'
  | 'look-back'
  | 'over'
  | 'wait'

function stepCode(viewer: Viewer, subject: BoardSubject): StepCode {
  const { night, tour, state, go, siteCount, telescopeCount } = subject
  if (night && tour) {
    const step = stepOfNight(night, viewer.now)
    if (night.state === 'off' && step !== 'look-back') return viewer.mayAct ? 'off' : 'off-read'
    if (!viewer.mayAct) return stepOfReader(step, night, viewer.now)
    const mayChange = mayLead(viewer) && (step === 'print' || step === 'set-up')
    if (mayChange && go && isDecisionDue(night, go.decisionAt, viewer.now)) return 'decide'
    return mayChange && state?.isStale && !state.waiting ? 'rebuild' : step
  }
  if (night) return mayLead(viewer) ? 'build' : 'wait'
  if (!viewer.mayHost) return 'sign-in'
  return siteCount === 0 || telescopeCount === 0 ? 'start' : 'night'
}

/** What is offered in place of a step to those who do nothing on the field. */
const STEPS_OF_READERS: Readonly<Partial<Record<StepCode, StepCode>>> = {
  print: 'read',
  'set-up': 'read',
  check: 'visit',
  close: 'visit',
  'look-back': 'over',
}

/** Until the opening there is no line and nothing shown. */
function stepOfReader(step: StepCode, night: Night, now: Date): StepCode {
  if (step === 'check' && now < nightHours(night).opensAt) return 'read'
  return STEPS_OF_READERS[step] ?? step
}

const MINUTE_MS = 60_000
/** Minutes before the opening from which nobody comes earlier to set up, and from which the programme is looked at. */
const SET_UP_BEFORE = 180
const CHECK_BEFORE = 30
/** A quarter of an hour before the end the lines are closed and the last ten minutes are called. */
const CLOSE_BEFORE = 15

function stepOfNight(night: Night, now: Date): StepCode {
  const { opensAt, closesAt } = nightHours(night)
  const isWithin = (minutes: number, of: Date): boolean => now.getTime() >= of.getTime() - minutes * MINUTE_MS
  if (now >= closesAt) return 'look-back'
  if (isWithin(CLOSE_BEFORE, closesAt)) return 'close'
  if (isWithin(CHECK_BEFORE, opensAt)) return 'check'
  return isWithin(SET_UP_BEFORE, opensAt) ? 'set-up' : 'print'
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
    'set-up': `/nights/${id}/set-up`,
    read: `/nights/${id}/programme`,
    check: `/nights/${id}/check`,
    visit: `/tonight/${id}`,
    close: `/nights/${id}/set-up`,
    off: `/nights/${id}/go`,
    'off-read': '/nights',
    'look-back': `/nights/${id}/report`,
    over: `/nights/${id}/programme`,
    wait: '/nights',
  }
  return hrefs[code]
}
