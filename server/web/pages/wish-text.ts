import type { ToldWish } from '../../desk/wishes.ts'
import type { Night } from '../../tours/night.ts'
import type { Remark } from '../../tours/tour.ts'
import { groupOf, type Wish } from '../../tours/wish.ts'
import type { Words } from '../../words/words.ts'
import { type Names, remarkText, targetName } from './say.ts'
import { stationName } from './stop-line.ts'

/** A wish as a sentence. */
export function wishText(words: Words, night: Night, names: Names, wish: Wish): string {
  const { kind, stationId, targetKey, aim, startsAt, endsAt, things } = wish
  const values = {
    target: targetKey === null ? thingsText(words, things) : targetName(words, names, targetKey, aim ?? 'whole'),
    station: stationId === null ? '' : stationName(night, names, stationId),
    from: startsAt ?? '',
    to: endsAt ?? '',
  }
  if (kind !== 'bar')
    return words.say(kind === 'only' && targetKey !== null ? 'wish.says-only-one' : `wish.says-${kind}`, values)
  const where = stationId === null ? 'bar' : 'bar-at'
  return words.say(startsAt === null ? `wish.says-${where}` : `wish.says-${where}-time`, values)
}

/** Kinds of things by the name of their group, or one by one. */
function thingsText(words: Words, things: Wish['things']): string {
  const group = groupOf(things)
  return group ? words.say(`wish.group-${group}`) : things.map((kind) => words.say(`kind.${kind}`)).join(', ')
}

/** What a wish costs, or why it is not in force; says so while it is being reckoned. */
export function costText(words: Words, names: Names, { conflict, isAsleep, loss }: ToldWish): string | null {
  if (conflict.length > 0) return null
  if (isAsleep) return words.say('wish.asleep')
  if (loss === undefined) return words.say('wish.cost-reckoned')
  if (loss === null) return words.say('wish.cost-nothing')
  const looks = Math.round(loss.looks)
  return words.say('wish.cost', { looks, count: looks, target: names.nameOf(loss.targetKey) })
}

/** The sentences of a conflict one after the other; null without one. */
export const conflictText = (words: Words, conflict: readonly Remark[]): string | null =>
  conflict.length === 0 ? null : conflict.map((remark) => remarkText(words, remark)).join(' ')
