import type { Words } from '../../words/words.ts'

/** The reason of a thing that came without one: kept as the code of its sentence, so that each reader has it in their own language. */
export const WHY_BLANK = 'own.why-blank'

/** Why something is liked, as a reader sees it. */
export const whyText = (words: Words, reason: string): string =>
  reason === WHY_BLANK ? words.say(WHY_BLANK) : words.called(reason)

/** A reason as it is kept: what a form sends back as it was shown stays the code. */
export const keptWhy = (words: Words, typed: string): string => (typed === words.say(WHY_BLANK) ? WHY_BLANK : typed)
