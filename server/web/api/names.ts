import type { Desk } from '../../desk/desk.ts'
import type { CheckCause } from '../../tours/check.ts'
import type { Night } from '../../tours/night.ts'
import type { LeaveBy, Remark } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { causeText, remarkText } from '../pages/say.ts'

export type NameOf = (key: string) => string

/** Names of the targets and stations of a night by key or id, stations that left the row included; the key itself where there is no name. */
export const namesOfNight =
  ({ objects, nights }: Pick<Desk, 'objects' | 'nights'>, night: Night, words: Words): NameOf =>
  (key) => {
    const object = objects.show(key)
    if (object) return words.called(object.name)
    return nights.everyStation(night.id).find(({ id }) => id === key)?.name ?? key
  }

/** A remark as data with its sentence. */
export const remarkJson = (words: Words, remark: Remark) => ({
  code: remark.code,
  values: remark.values ?? {},
  message: words.knows(remark.code) ? remarkText(words, remark) : null,
})

const causeJson = (words: Words, cause: CheckCause) => ({
  code: cause.code,
  name: cause.name ?? null,
  message: words.knows(`cause.${cause.code}`) ? causeText(words, cause) : null,
})

/** A cause as data with its words; null stays null. */
export const causeOrNull = (words: Words, cause: CheckCause | null) => cause && causeJson(words, cause)

/** When a target stops being well placed and why; null when it stays to the end. */
export const leaveByJson = (words: Words, leaveBy: LeaveBy | null, wall: (at: Date) => string) =>
  leaveBy && { at: leaveBy.at, atWall: wall(leaveBy.at), cause: causeJson(words, leaveBy.cause) }
