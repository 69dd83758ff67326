import type { Who } from '../../desk/desk.ts'
import { mayMark } from '../../desk/mark-rights.ts'
import type { StationNow } from '../../tours/field.ts'
import type { Mark, MarkKind } from '../../tours/mark.ts'
import { payloadOf } from '../../tours/mark-payload.ts'
import type { Aim } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import type { FieldGround } from './field-ground.ts'
import { type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'

/** One act as a form: its hidden fields and the words on its button. */
export interface FieldAct {
  readonly action: string
  readonly text: string
  readonly fields: readonly { readonly name: string; readonly value: string }[]
}

/** Acts behind one tap, with the question that they answer. */
interface ActGroup {
  readonly label: string
  readonly acts: readonly FieldAct[]
}

export interface FieldActs {
  /** On to the next stop; when nothing is next, that what is on is on, until somebody has said so. */
  readonly main: FieldAct | null
  readonly trouble: ActGroup
  readonly skip: ActGroup | null
  /** Who saw what is showing, for the learning of the site; null when nothing is. */
  readonly seen: ActGroup | null
  readonly takeBack: FieldAct | null
}

/** What makes the acts of one station. */
interface ActsSubject extends Pick<FieldGround, 'night' | 'names' | 'newKey'> {
  readonly state: StationNow
  /** The acts that nobody has taken back. */
  readonly standing: readonly Mark[]
}

const WHO = ['they', 'half', 'not'] as const
const WHYS = ['cloud', 'trees', 'trouble', 'wish'] as const
const TROUBLES = ['cloud', 'trees', 'help'] as const

/** The acts that make sense at a station now. */
export function fieldActs(viewer: Viewer, subject: ActsSubject): FieldActs {
  const { words } = viewer
  const { showing, next } = subject.state
  const make = actMaker(subject, subject.state.stationId)
  return {
    main: mainAct(words, subject, make),
    trouble: {
      label: words.say('field.trouble-what'),
      acts: [
        ...TROUBLES.map((what) => make(words.say(`field.trouble-${what}`), 'trouble', { what })),
        ...(subject.state.trouble && showing ? [showingAct(words, subject, make, 'field.act-well', showing)] : []),
      ],
    },
    skip: skipActs(words, subject, make, showing ?? next),
    seen: showing && seenActs(words, subject, make, showing),
    takeBack: takeBackAct(viewer, subject, make),
  }
}

type MakeAct = (text: string, kind: MarkKind, carried: Readonly<Record<string, string>>) => FieldAct

/** Makes the forms of one station's acts, each of which comes back to the page of the station. */
export function actMaker({ night, newKey }: Pick<FieldGround, 'night' | 'newKey'>, stationId: string): MakeAct {
  const action = `/field/${night.id}/marks`
  const back = stationHref(night, stationId)
  return (text, kind, carried) => {
    const fields = Object.entries({ key: newKey(), kind, stationId, back, ...carried })
    return { action, text, fields: fields.map(([name, value]) => ({ name, value })) }
  }
}

/** The page of a station in its operator's hand. */
export const stationHref = ({ id }: Pick<FieldGround['night'], 'id'>, stationId: string): string =>
  `/field/${id}/${stationId}`

interface Aimed {
  readonly targetKey: string
  readonly aim: Aim
}

const showingAct = (
  words: Words,
  { names }: Pick<FieldGround, 'names'>,
  make: MakeAct,
  key: 'field.act-next' | 'field.act-showing' | 'field.act-well',
  { targetKey, aim }: Aimed,
): FieldAct => make(words.say(key, { name: targetName(words, names, targetKey, aim) }), 'showing', { targetKey, aim })

function mainAct(words: Words, subject: ActsSubject, make: MakeAct): FieldAct | null {
  const { showing, next } = subject.state
  if (next) return showingAct(words, subject, make, 'field.act-next', next)
  if (showing === null || isSaid(subject)) return null
  return showingAct(words, subject, make, 'field.act-showing', showing)
}

/** True when somebody has said of what is on that it is. */
const isSaid = ({ standing, state: { stationId, showing } }: ActsSubject): boolean =>
  showing !== null &&
  standing.some((mark) => {
    const said = mark.stationId === stationId && mark.happenedAt >= showing.sinceAt && payloadOf('showing', mark)
    return said && said.targetKey === showing.targetKey && said.aim === showing.aim
  })

function skipActs(words: Words, { names, state }: ActsSubject, make: MakeAct, thing: Aimed | null): ActGroup | null {
  if (thing === null) return null
  const { targetKey, aim } = thing
  const name = targetName(words, names, targetKey, aim)
  const over = state.showing ? [make(words.say('field.act-shown', { name }), 'shown', { targetKey })] : []
  return {
    label: words.say('field.skip-why', { name }),
    acts: [...WHYS.map((why) => make(words.say(`field.why-${why}`), 'skipped', { targetKey, why })), ...over],
  }
}

const seenActs = (words: Words, { names }: ActsSubject, make: MakeAct, { targetKey, aim }: Aimed): ActGroup => ({
  label: words.say('field.seen', { name: targetName(words, names, targetKey, aim) }),
  acts: WHO.map((who) => make(words.say(`field.seen-${who}`), 'seen', { targetKey, who })),
})

/** Takes back the newest act at the station that whoever looks could have made. */
function takeBackAct({ words, who }: Viewer, subject: ActsSubject, make: MakeAct): FieldAct | null {
  const role: Who['role'] = who?.role ?? 'host'
  const own = subject.standing.filter(
    ({ stationId, kind }) => stationId === subject.state.stationId && mayMark(role, kind),
  )
  const newest = own.toSorted((a, b) => b.seq - a.seq)[0]
  if (newest === undefined) return null
  return make(words.say('field.take-back', { what: didText(words, subject.names, newest) }), 'undo', {
    markKey: newest.key,
  })
}

/** What an act has said, in a few words: `now showing Saturn`. */
function didText(words: Words, names: Names, { kind, payload }: Mark): string {
  const { targetKey, aim, what, who, is, people, seconds } = payload
  const name =
    typeof targetKey === 'string' ? targetName(words, names, targetKey, aim === 'close' ? 'close' : 'whole') : ''
  const detail = [what, who, is].find((each) => typeof each === 'string')
  return words.say(detail === undefined ? `field.did-${kind}` : `field.did-${kind}-${detail}`, {
    name,
    people: Number(people ?? 0),
    seconds: Number(seconds ?? 0),
  })
}
