import type { Who } from '../../desk/desk.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { isClockWrong, phoneRoleText, spanText } from './phones-text.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

export type FieldLook = 'day' | 'lamp'

interface RoleChoice {
  readonly id: string
  readonly value: string
  readonly text: string
  readonly isChosen: boolean
}

interface JoinForm {
  readonly problems: ProblemList | null
  readonly byQrText: string
  readonly code: Field
  readonly name: Field
  readonly roleLabel: string
  /** [] for the host's own phone, which does all. */
  readonly roles: readonly RoleChoice[]
  /** What comes back with the form: the look, and whose phone it is. */
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly button: string
}

export interface JoinPage {
  readonly sheet: Sheet
  readonly title: string
  /** True while the host has still to let this phone in. */
  readonly isWaiting: boolean
  /** How this phone stands to the night. */
  readonly said: readonly string[]
  /** The way on; null for a phone that is not in. */
  readonly go: { readonly href: string; readonly text: string } | null
  /** Over the form of a phone that is in already; null when the form stands by itself. */
  readonly anewLabel: string | null
  readonly form: JoinForm | null
  readonly lookLink: { readonly href: string; readonly text: string }
}

interface JoinSubject {
  /** The phone that asks, also while it waits. */
  readonly who: Who | undefined
  /** True for a phone that was on a night and is no longer. */
  readonly isGone: boolean
  readonly form: FormState
  readonly isHosts: boolean
  readonly look: FieldLook
}

/** A phone's way in: the form, the wait for the host, or that it is in. */
export function joinPage(viewer: Viewer, subject: JoinSubject): JoinPage {
  const { words } = viewer
  const { who, isHosts, look } = subject
  const title = words.say(isHosts ? 'join.title-host' : 'join.title')
  const other = look === 'lamp' ? 'day' : 'lamp'
  return {
    sheet: joinSheet(viewer, title, look),
    title,
    isWaiting: who?.isConfirmed === false,
    said: saidOf(viewer, subject),
    go: who ? wayOn(viewer, who, look) : null,
    anewLabel: who?.isConfirmed ? words.say('join.anew') : null,
    form: who?.isConfirmed === false ? null : joinForm(viewer, subject),
    lookLink: { href: joinHref({ isHosts, look: other }), text: words.say(`field.look-${other}`) },
  }
}

function joinSheet(viewer: Viewer, title: string, look: FieldLook): Sheet {
  const sheet = fieldSheet(viewer, title, look, ['join.js'])
  return { ...sheet, styles: [...sheet.styles, 'phones.css'] }
}

/** This page, for whoever asks in so lit a look. */
export const joinHref = ({ isHosts, look }: Pick<JoinSubject, 'isHosts' | 'look'>): string =>
  `/join?look=${look}${isHosts ? '&as=host' : ''}`

function saidOf({ words }: Viewer, { who, isGone, isHosts }: JoinSubject): string[] {
  if (!who)
    return [words.say(isHosts ? 'join.lead-host' : 'join.lead'), ...(isGone ? [words.say('fault.no-phone')] : [])]
  const { name, isConfirmed, aheadSec } = who
  const state = isConfirmed
    ? [words.say('join.is-in', { name, role: phoneRoleText(words, who) })]
    : [words.say('join.waits', { name }), words.say('join.waits-hint')]
  if (aheadSec === null || !isClockWrong(who)) return state
  const key = aheadSec > 0 ? 'join.clock-ahead' : 'join.clock-behind'
  return [...state, words.say(key, { time: spanText(words, Math.abs(aheadSec)) }), words.say('join.clock-means')]
}

const wayOn = ({ words }: Viewer, who: Who, look: FieldLook): JoinPage['go'] => ({
  href: who.isConfirmed ? placeOf(who, look) : joinHref({ isHosts: false, look }),
  text: words.say(who.isConfirmed ? 'join.go-on' : 'join.look-again'),
})

/** Where a phone that is in goes: to choose its place, to the place that it has chosen, to the line, or to the board of the night. */
export function placeOf(
  { role, nightId, stationId }: Pick<Who, 'role' | 'nightId' | 'stationId'>,
  look: FieldLook,
): string {
  const field = `/field/${nightId}`
  if (role === 'host-phone') return `/nights/${nightId}`
  const place = role === 'helper' ? 'line' : stationId
  return `${place === null ? field : `${field}/${place}`}?look=${look}`
}

function joinForm({ words }: Viewer, { form, isHosts, look }: JoinSubject): JoinForm {
  const { text } = formFields(words, form)
  const code = text('code', { label: words.say('join.code'), hint: words.say('join.code-hint') })
  const name = text('name', {
    label: words.say('join.name'),
    hint: words.say('join.name-hint'),
    ...(isHosts && { fallback: words.say('join.host-name') }),
  })
  const chosen = form.values.role ?? 'operator'
  const roles = (['operator', 'helper'] as const).map((role) => ({
    id: `role-${role}`,
    value: role,
    text: words.say(`join.role-${role}`),
    isChosen: role === chosen,
  }))
  return {
    problems: problemList(words, form, [code, name]),
    byQrText: words.say('join.by-qr'),
    code,
    name,
    roleLabel: words.say('join.role'),
    roles: isHosts ? [] : roles,
    hidden: [{ name: 'look', value: look }, ...(isHosts ? [{ name: 'as', value: 'host' }] : [])],
    button: words.say(isHosts ? 'join.button-host' : 'join.button'),
  }
}
