import { describe, expect, it } from 'vitest'
import { readWordTables } from '../../server/web/language.ts'
import { ENGLISH } from '../support/page-data.ts'
import { sentencesOf, wordsOf } from '../support/plain-words.ts'

const MOST_WORDS = 20
const PRINTED = /^(sky-chart|field-drawing|walks|papers|tally|handout)\./

describe('the words of the papers', () => {
  it('have no sentence of more than twenty words', () => {
    const texts = Object.entries(readWordTables().en ?? {})
      .filter(([key]) => PRINTED.test(key))
      .flatMap(([key, said]) => (typeof said === 'string' ? [said] : Object.values(said)).map((text) => [key, text]))
    expect(texts.length).toBeGreaterThan(100)
    const long = texts.flatMap(([key, text = '']) =>
      sentencesOf(text)
        .filter((sentence) => wordsOf(sentence).length > MOST_WORDS)
        .map((sentence) => `${key}: ${sentence}`),
    )
    expect(long).toEqual([])
  })

  it('say that a sign is for a stop, and that the whole sky turns', () => {
    expect(ENGLISH.say('papers.for-sign')).toBe(
      'One for each stop: what is shown, in letters that are read from the line.',
    )
    expect(ENGLISH.say('sky-chart.hour-later')).toBe('An hour later the sky has turned by up to a fist and a half.')
  })

  it('call the middle answer of the tally as the taps of the field page do', () => {
    expect(ENGLISH.say('tally.half')).toBe(ENGLISH.say('field.seen-half'))
  })
})
