import type { GoNight } from '../../desk/go.ts'
import { GO_STATES } from '../../tours/go-judge.ts'
import type { Night } from '../../tours/night.ts'
import type { ThinCloud } from '../../tours/thin-cloud.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { planFields, valueFields } from './go-form.ts'
import { earlierTexts, type GoLine, goLine } from './go-lines.ts'
import { decisionText, keepText, madeSentence, pastDecision, proposalTexts, publishedSentence } from './go-text.ts'
import { nightSheet } from './night-links.ts'
import type { Names } from './say.ts'
import { mayLead, type Sheet, type Viewer } from './sheet.ts'

interface Part {
  readonly action: string
  readonly fields: readonly Field[]
  readonly text: string
}

export interface GoPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly stateLabel: string
  readonly state: string
  readonly decision: string
  readonly problems: ProblemList | null
  readonly valuesLabel: string
  readonly lines: readonly GoLine[]
  readonly limitsLink: { readonly href: string; readonly text: string } | null
  readonly units: string
  /** The form of what is seen now; null for who may only read. */
  readonly enter: (Part & { readonly label: string; readonly hint: string }) | null
  readonly decideLabel: string
  readonly proposal: readonly string[]
  readonly keepLabel: string
  readonly keep: string
  readonly thinLink: { readonly href: string; readonly text: string }
  readonly decide:
    | (Omit<Part, 'text'> & { readonly states: readonly { readonly value: string; readonly text: string }[] })
    | null
  readonly decisionsLabel: string
  readonly decisions: readonly string[]
  readonly sayLabel: string
  readonly sayHint: string
  readonly sentence: GoSentence | null
  readonly noSentence: string
  readonly plan: (Part & { readonly label: string; readonly backUp: string | null }) | null
  readonly earlierLabel: string
  readonly earlier: readonly string[]
}

/** The sentence in a box from which it can be copied; `save` is there for the host. */
interface GoSentence extends Pick<Field, 'id' | 'label' | 'value' | 'problem'> {
  readonly action: string
  readonly save: string | null
  readonly asMade: string | null
  /** That a sentence of the host no longer holds, with what it was. */
  readonly dropped: string | null
}

export interface GoSubject {
  readonly night: Night
  readonly go: GoNight
  readonly hasTour: boolean
  /** Null while it is being worked out. */
  readonly thin: ThinCloud | null
  /** The date that breaks fewest of the host's rules of those soon after, and how many; null where none is known. */
  readonly suggested: { readonly date: string; readonly brokenRules: number } | null
  readonly names: Names
  readonly state: FormState
}

/** Whether the night takes place: what is seen, how it stands to the host's limits, what was decided, and what to publish. */
export function goPage(viewer: Viewer, subject: GoSubject): GoPage {
  const { words } = viewer
  const { night, go, state } = subject
  const [enter, decide, plan] = [enterPart(viewer, subject), decidePart(viewer, subject), planPart(viewer, subject)]
  const sentence = sentencePart(viewer, subject)
  const shown = [enter, decide, plan].flatMap((part) => part?.fields ?? [])
  return {
    sheet: nightSheet(viewer, words.say('go.title-of', { title: night.title }), {
      night,
      hasTour: subject.hasTour,
      here: 'go',
    }),
    ...labels(viewer),
    nightTitle: night.title,
    state: words.say(`go.state-${night.state}`),
    decision: decisionText(words, night, go, viewer.now),
    problems: problemList(words, state, [...shown, ...sentenceField(viewer, subject)]),
    lines: go.judged.map((judged) => goLine(viewer, subject, judged)),
    limitsLink: viewer.mayHost ? { href: `/nights/${night.id}/go/limits`, text: words.say('go.to-limits') } : null,
    units: words.settings.units,
    enter,
    proposal: proposalTexts(words, go, viewer.now),
    keep: subject.thin === null ? words.say('go.later') : keepText(words, night, subject.names, subject.thin),
    thinLink: { href: `/nights/${night.id}/thin-cloud`, text: words.say('go.to-thin') },
    decide,
    decisions: go.decisions.map((decision) => pastDecision(words, night, decision)),
    sentence,
    plan,
    earlier: earlierTexts(viewer, subject),
  }
}

const labels = ({ words }: Viewer) => ({
  title: words.say('go.title'),
  stateLabel: words.say('go.state'),
  valuesLabel: words.say('go.values'),
  decideLabel: words.say('go.decide'),
  keepLabel: words.say('go.keep-label'),
  decisionsLabel: words.say('go.decisions'),
  sayLabel: words.say('go.say'),
  sayHint: words.say('go.say-hint'),
  noSentence: words.say('go.no-sentence'),
  earlierLabel: words.say('go.earlier'),
})

function enterPart(viewer: Viewer, { night, state }: GoSubject): GoPage['enter'] {
  if (!mayLead(viewer)) return null
  const { words } = viewer
  return {
    action: `/nights/${night.id}/go/values`,
    fields: valueFields(words, state),
    text: words.say('go.enter'),
    label: words.say('go.enter-label'),
    hint: words.say('go.enter-hint'),
  }
}

function decidePart(viewer: Viewer, { night, state }: GoSubject): GoPage['decide'] {
  if (!mayLead(viewer)) return null
  const { words } = viewer
  const why = { label: words.say('go.why'), hint: words.say('go.why-hint'), isWide: true }
  return {
    action: `/nights/${night.id}/go/decide`,
    fields: [formFields(words, state).text('why', why)],
    states: GO_STATES.map((value) => ({ value, text: words.say(`go.make-${value}`) })),
  }
}

function planPart(viewer: Viewer, { night, go, suggested, state }: GoSubject): GoPage['plan'] {
  if (!viewer.mayHost) return null
  const { words } = viewer
  return {
    action: `/nights/${night.id}/go/plan`,
    fields: planFields(words, state, night, go),
    text: words.say('go.save-plan'),
    label: words.say('go.plan'),
    backUp: suggested && suggestedText(words, suggested),
  }
}

function suggestedText(words: Words, { date, brokenRules }: NonNullable<GoSubject['suggested']>): string {
  const values = { date: words.date(date), count: brokenRules }
  return words.say(brokenRules === 0 ? 'go.suggested' : 'go.suggested-breaks', values)
}

function sentenceField({ words }: Viewer, { night, go, state }: GoSubject): readonly Field[] {
  const published = publishedSentence(words, night, go)
  const ask = { label: words.say('go.sentence'), fallback: published ?? '' }
  return published === null ? [] : [formFields(words, state).text('sentence', ask)]
}

function sentencePart(viewer: Viewer, subject: GoSubject): GoSentence | null {
  const { words, mayHost } = viewer
  const { night, go } = subject
  const [field] = sentenceField(viewer, subject)
  if (field === undefined) return null
  const { id, label, value, problem } = field
  const { written } = go
  const isOwn = written?.holds === true && written.text !== madeSentence(words, night, go.plan)
  return {
    id,
    label,
    value,
    problem,
    action: `/nights/${night.id}/go/sentence`,
    save: mayHost ? words.say('go.save-sentence') : null,
    asMade: mayHost && isOwn ? words.say('go.as-made') : null,
    dropped: written && !written.holds ? words.say('go.dropped', { text: written.text }) : null,
  }
}
