import type { Words } from '../../words/words.ts'

/** The note of a telescope of which most was assumed: kept as the code of its sentence, so that each reader has it in their own language. */
export const ASSUMED_NOTE = 'start.kit-note'

/** A telescope's note as a reader sees it; null where there is none. */
export const noteText = (words: Words, note: string | undefined): string | null =>
  note === ASSUMED_NOTE ? words.say(ASSUMED_NOTE) : (note ?? null)

/** A note as it is kept: what a form sends back as it was shown stays the code. */
export const keptNote = (words: Words, typed: string): string =>
  typed === words.say(ASSUMED_NOTE) ? ASSUMED_NOTE : typed
