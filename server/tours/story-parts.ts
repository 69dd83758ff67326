import type { Story } from './target.ts'

/** What is said of a thing, part by part: the first five are said at the telescope, in this order. */
export const STORY_PARTS = ['see', 'lookFor', 'how', 'compare', 'answer', 'children', 'more'] as const
export type StoryPart = (typeof STORY_PARTS)[number]

/** What stands on the face of a card. */
export const FACE_PARTS = ['see', 'lookFor', 'how', 'compare', 'answer'] as const satisfies readonly StoryPart[]

/** Museum evidence for text that is read standing up. */
export const MOST_FACE_WORDS = 70

/** How many words a face has: what stands between blanks and holds a letter or digit of any script. */
export const faceWords = (story: Pick<Story, (typeof FACE_PARTS)[number]>): number =>
  FACE_PARTS.flatMap((part) => story[part].split(/\s+/)).filter((word) => /[\p{L}\p{N}]/u.test(word)).length
