import type { PhoneNow } from '../../desk/joins.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { clockText, heardText, isClockWrong, phoneRoleText, standText } from './phones-text.ts'

/** One act of the host on the page of the phones, sent as a form. */
export interface PhonesAct {
  readonly act: string
  readonly text: string
  /** The phone or the network that it is about; empty for none. */
  readonly value: string
  readonly isQuiet: boolean
}

export interface PhoneLine {
  readonly name: string
  readonly facts: readonly string[]
  /** That its clock is wrong, in words; null when it is right or not told. */
  readonly warning: string | null
  readonly acts: readonly PhonesAct[]
}

/** How long ago a phone may have been heard to count as there. */
const HEARD_SEC = 120

/** Phones that are in, and those among them that were heard lately. */
export function countsOf(phones: readonly PhoneNow[]): { readonly count: number; readonly heard: number } {
  const inside = phones.filter(({ isConfirmed }) => isConfirmed)
  const heard = inside.filter(({ silentSec }) => silentSec !== null && silentSec <= HEARD_SEC)
  return { count: inside.length, heard: heard.length }
}

/** Who waits for the host, in a sentence; null when nobody does. */
export function waitsText(words: Words, phones: readonly PhoneNow[]): string | null {
  const names = phones.filter(({ isConfirmed }) => !isConfirmed).map(({ name }) => name)
  return names.length === 0 ? null : words.say('phones.waits', { count: names.length, names: words.list(names) })
}

/** The phones that are in, or that wait, with what the host may do about each. */
export const phoneLines = (words: Words, night: Night, phones: readonly PhoneNow[]): PhoneLine[] =>
  phones.map((phone) => ({
    name: phone.name,
    facts: factsOf(words, night, phone),
    warning: isClockWrong(phone) ? words.say('phones.clock-warning', { clock: clockText(words, phone) }) : null,
    acts: actsOf(words, phone),
  }))

function factsOf(words: Words, night: Night, phone: PhoneNow): string[] {
  const stand = phone.isConfirmed ? standText(words, night, phone) : null
  return [
    phoneRoleText(words, phone),
    ...(stand === null ? [] : [stand]),
    heardText(words, phone.silentSec),
    ...(isClockWrong(phone) ? [] : [clockText(words, phone)]),
  ]
}

function actsOf(words: Words, { id, name, isConfirmed }: PhoneNow): PhonesAct[] {
  const act = (kind: string, text: string, isQuiet: boolean): PhonesAct => ({
    act: kind,
    text: words.say(text, { name }),
    value: id,
    isQuiet,
  })
  if (isConfirmed) return [act('remove', 'phones.remove', true)]
  return [act('let-in', 'phones.let-in', false), act('remove', 'phones.turn-away', true)]
}
