import type { StationNow } from '../../tours/field.ts'
import type { Aim } from '../../tours/target.ts'
import { type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'

/** One act as a form: its hidden fields and the words on its button. */
export interface FieldAct {
  readonly action: string
  readonly text: string
  readonly fields: readonly { readonly name: string; readonly value: string }[]
}

export interface FieldActs {
  readonly main: readonly FieldAct[]
  /** Who saw what is showing, for the learning of the site; [] when nothing is. */
  readonly seenLabel: string
  readonly seen: readonly FieldAct[]
  readonly skipLabel: string
  readonly skips: readonly FieldAct[]
  readonly next: FieldAct | null
}

interface ActsSubject {
  readonly action: string
  readonly state: StationNow
  readonly names: Names
  readonly newKey: () => string
}

const WHO = ['they', 'half', 'not'] as const
const WHYS = ['cloud', 'trees', 'trouble', 'wish'] as const

/** The acts that make sense now: confirm or end what is showing, skip it, go on to the next, take back the last. */
export function fieldActs(viewer: Viewer, subject: ActsSubject): { acts: FieldActs; undo: FieldAct | null } {
  const { words } = viewer
  const { showing, next, lastMarkKey } = subject.state
  const named = (target: { targetKey: string; aim: Aim }) =>
    targetName(words, subject.names, target.targetKey, target.aim)
  const subjectOfSkip = showing ?? next
  const acts = {
    main: showing
      ? [
          act(subject, words.say('field.act-showing', { name: named(showing) }), 'showing', aimed(showing)),
          act(subject, words.say('field.act-shown', { name: named(showing) }), 'shown', {
            targetKey: showing.targetKey,
          }),
        ]
      : [],
    seenLabel: showing ? words.say('field.seen', { name: named(showing) }) : '',
    seen: showing
      ? WHO.map((who) => act(subject, words.say(`field.seen-${who}`), 'seen', { targetKey: showing.targetKey, who }))
      : [],
    skipLabel: subjectOfSkip ? words.say('field.act-skip', { name: named(subjectOfSkip) }) : '',
    skips: subjectOfSkip
      ? WHYS.map((why) =>
          act(subject, words.say(`field.why-${why}`), 'skipped', { targetKey: subjectOfSkip.targetKey, why }),
        )
      : [],
    next: next ? act(subject, words.say('field.act-showing', { name: named(next) }), 'showing', aimed(next)) : null,
  }
  const undo = lastMarkKey === null ? null : act(subject, words.say('field.act-undo'), 'undo', { markKey: lastMarkKey })
  return { acts, undo }
}

const aimed = ({ targetKey, aim }: { targetKey: string; aim: Aim }) => ({ targetKey, aim })

function act(subject: ActsSubject, text: string, kind: string, payload: Readonly<Record<string, string>>): FieldAct {
  const fields = Object.entries({ key: subject.newKey(), kind, ...payload })
  return { action: subject.action, text, fields: fields.map(([name, value]) => ({ name, value })) }
}
