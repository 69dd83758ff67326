import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readMoonFeatures } from '../../db/catalogue/moon-features.ts'
import { OUTREACH_NAMES } from '../../db/catalogue/outreach.ts'
import { outreachFile } from '../../db/catalogue/outreach-file.ts'
import { constellationRows, starNames } from '../../db/catalogue/rows.ts'
import { readStories } from '../../db/catalogue/stories.ts'
import { readWorldEvents } from '../../db/catalogue/world-events.ts'
import { STORY_PARTS } from '../../server/tours/story-parts.ts'
import { readWordTables } from '../../server/web/language.ts'
import { OUTREACH } from '../support/evenings.ts'
import { speller } from '../support/spelling.ts'

const objects = OUTREACH
const features = readMoonFeatures()
/** Words of the trade, people and places that a general dictionary does not hold. */
const TRADE = readFileSync(new URL('./trade-words.txt', import.meta.url), 'utf8').split('\n')
const names = [
  ...objects.flatMap(({ name, designations }) => [name, ...designations]),
  ...features.flatMap(({ name, official }) => [name, official]),
  ...[...constellationRows().values()].flatMap(({ code, name, genitive }) => [code, name, genitive]),
  ...[...starNames().values()].map(({ name }) => name),
]
const { wrongIn } = speller([...TRADE, ...names])

/** `where: word` for every word that is not spelt as British English, the trade or a name of the list spells it. */
const wrong = (texts: readonly (readonly [string, string])[]) =>
  texts.flatMap(([where, text]) => wrongIn(text).map((word) => `${where}: ${word}`))

describe('spelling', () => {
  it('is right in every story', () => {
    const parts = readStories('en').flatMap((story) => STORY_PARTS.map((part) => [story.key, story[part]] as const))
    expect(parts.length).toBeGreaterThan(OUTREACH_NAMES.length * STORY_PARTS.length)
    expect(wrong(parts)).toEqual([])
  })

  it('is right in every reason and note of the list, and in what to look for on the Moon', () => {
    expect(wrong(objects.map(({ key, appealReason, note }) => [key, `${appealReason} ${note ?? ''}`]))).toEqual([])
    expect(wrong(objects.map(({ key, colours }) => [key, colours?.join(' ') ?? '']))).toEqual([])
    expect(wrong(features.map(({ name, see }) => [name, see]))).toEqual([])
  })

  it('is right in what happened on Earth', () => {
    expect(
      wrong(readWorldEvents('en').map(({ fromYear, what, place }) => [String(fromYear), `${what} ${place}`])),
    ).toEqual([])
  })

  it('is right in every sentence of the pages, but for how a name sounds and what people may type', () => {
    const heardOrTyped = /^(align\.said|start\.(word|unit|count))-/
    const written = Object.entries(readWordTables().en ?? {}).filter(([key]) => !heardOrTyped.test(key))
    const sentences = written.flatMap(([key, message]) =>
      (typeof message === 'string' ? [message] : Object.values(message)).map(
        (text) => [key, text.replaceAll(/\{\w+\}/g, '')] as const,
      ),
    )
    expect(wrong(sentences)).toEqual([])
  })

  it('would be noticed where it is wrong', () => {
    expect(wrongIn('A teliscope shows the colour of Albireo; the color too.')).toEqual(['teliscope', 'color'])
    expect(outreachFile('stars.en.csv').text.length).toBeGreaterThan(0)
  })
})
