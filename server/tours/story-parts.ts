import type { Story } from './target.ts'

/** What is said of a thing, part by part: the first five are said at the telescope, in this order. */
export const STORY_PARTS = ['see', 'lookFor', 'how', 'compare', 'answer', 'children', 'more'] as const
export type StoryPart = (typeof STORY_PARTS)[number]

/** What stands on the face of a card. */
export const FACE_PARTS = ['see', 'lookFor', 'how', 'compare', 'answer'] as const satisfies readonly StoryPart[]

/** Museum evidence for text that is read standing up. */
export const MOST_FACE_WORDS = 70

/** What can be said in one breath, standing in the dark. */
export const MOST_SENTENCE_WORDS = 20

/** How many words the longest sentence of a text has. */
export const longestSentence = (text: string): number =>
  Math.max(0, ...text.split(/(?<=[.!?…。！？]["'»”’)]*)\s+/u).map(wordCount))

/** How many words a text has: what stands between blanks and holds a letter or digit of any script. */
export const wordCount = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length

/** How many words a face has. */
export const faceWords = (story: Pick<Story, (typeof FACE_PARTS)[number]>): number =>
  FACE_PARTS.reduce((sum, part) => sum + wordCount(story[part]), 0)
