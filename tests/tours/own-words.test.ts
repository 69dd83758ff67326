import { describe, expect, it } from 'vitest'
import { languageCode, languageName, ownWordsOf, ownWordsProblems, together } from '../../server/tours/own-words.ts'
import { faceWords, longestSentence } from '../../server/tours/story-parts.ts'
import { A_STORY } from '../support/page-data.ts'

const words = (count: number) => Array.from({ length: count }, () => 'a').join(' ')

describe('words of a host', () => {
  it('stand in the place of those that ship, part by part, and say who wrote them', () => {
    const own = ownWordsOf({ see: ' A ball\nof  sparks. ', how: '', compare: A_STORY.compare }, A_STORY)
    expect(own).toEqual({ see: 'A ball of sparks.' })
    const story = together({ key: 'm13', language: 'en', shipped: { ...A_STORY, sources: { how: 'trade' } }, own })
    expect(story).toMatchObject({ see: 'A ball of sparks.', how: A_STORY.how })
    expect(story.sources).toEqual({ how: 'trade', see: 'written by the host' })
  })

  it('stand alone in a language in which nothing ships', () => {
    const own = ownWordsOf({ see: 'Ein Ball.' }, null)
    expect(together({ key: 'm13', language: 'de', shipped: null, own })).toMatchObject({
      key: 'm13',
      language: 'de',
      see: 'Ein Ball.',
      answer: '',
    })
  })

  it('fill a face with 70 words at most, those that ship counted with them', () => {
    const shipped = faceWords(A_STORY) - faceWords({ ...A_STORY, see: '' }) // the words of the part that is replaced
    const room = 70 - (faceWords(A_STORY) - shipped)
    expect(ownWordsProblems({ see: words(room) }, A_STORY)).toEqual([])
    expect(ownWordsProblems({ see: words(room + 1) }, A_STORY)).toEqual([
      { field: '', key: 'problem.face-long', values: { count: 71, maximum: 70 } },
    ])
    expect(ownWordsProblems({ children: words(100), more: words(200) }, A_STORY)).toEqual([])
  })

  it('are no longer than the words that ship may be', () => {
    const long = { see: 'x'.repeat(181), children: 'x'.repeat(241), more: 'x'.repeat(401) }
    expect(ownWordsProblems(long, null).map(({ field, key }) => [field, key])).toEqual([
      ['see', 'problem.too-long'],
      ['children', 'problem.too-long'],
      ['more', 'problem.too-long'],
    ])
    expect(ownWordsProblems({ see: 7 }, null)).toMatchObject([{ field: 'see', key: 'problem.type-string' }])
  })

  it('counts words of any script and no dashes', () => {
    expect(
      faceWords({ ...A_STORY, see: 'Ein Stern – sonst nichts.', lookFor: '', how: '', compare: '', answer: '' }),
    ).toBe(4)
    expect(faceWords({ ...A_STORY, see: 'Шаровое скопление', lookFor: '', how: '', compare: '', answer: '' })).toBe(2)
  })
})

describe('the longest sentence', () => {
  it.each([
    ['', 0],
    ['One two three. One two?', 3],
    ['One (two three.) One two three four! One', 4],
    ['“One two.” – three', 2],
    ['It is 4.5 times as far.', 6],
  ])('of %j has %i words', (text, count) => {
    expect(longestSentence(text)).toBe(count)
  })
})

describe('the code of a language', () => {
  it('is written in one way', () => {
    expect(['de', ' EN ', 'pt-br', 'cy', 'gsw'].map(languageCode)).toEqual(['de', 'en', 'pt-BR', 'cy', 'gsw'])
    expect(languageName('de', 'en')).toBe('German')
  })

  it.each(['', 'german', 'x', '12', 'qq', '../de', 'de_AT x'])('is not %s', (text) => {
    expect(languageCode(text)).toBeUndefined()
  })
})
