import { describe, expect, it } from 'vitest'
import { holds, matchOf, queryWords, startTerms, tellingWords, topicTerms, wordTerms } from '../../db/search.ts'

const SMALL = new Set(['in', 'of', 'the'])
const TOPICS = new Set(['cluster', 'star cluster', 'leo', 'leo minor', 'cygni'])

it('takes a question apart into folded words, eight at most, and leaves small ones out where others are left', () => {
  expect(queryWords("Double-star in CYGNUS' wing")).toEqual(['double', 'star', 'in', 'cygnus', 'wing'])
  expect(queryWords('a b c d e f g h i j')).toHaveLength(8)
  expect(tellingWords(['star', 'in', 'the', 'north'], SMALL)).toEqual(['star', 'north'])
  expect(tellingWords(['in', 'of'], SMALL)).toEqual(['in', 'of'])
})

describe('the terms of a question', () => {
  it.each([
    ['m 13', '"m 13" *'],
    ['61 cyg', '"61" AND "cyg" *'],
    ['nebula america', '"nebula" * AND "america" *'],
    ['ngc 70 big', '"ngc 70" * AND "big" *'],
  ])('of %s keep numbers where they belong: %s', (question, match) => {
    expect(matchOf(wordTerms(question.split(' ')))).toBe(match)
  })

  it.each([
    ['star cluster leo', 'topics : "| star cluster |" AND topics : "| leo |"'],
    ['leo minor cluster', 'topics : "| leo minor |" AND topics : "| cluster |"'],
    ['61 cygni', '"61" AND topics : "| cygni |"'],
    ['37 old cluster 5', '"37" AND "old" * AND topics : "| cluster |" AND "5" *'],
    ['nothing here', ''],
  ])('of %s take topics as such, the longest first: %s', (question, match) => {
    expect(matchOf(topicTerms(question.split(' '), TOPICS))).toBe(match)
  })

  it('are held by a text in no table as by the tables', () => {
    const text = { name: 'comet 12 p', other: 'red comet', topics: '| comet | comets |' }
    expect(holds(text, wordTerms(['com', 'red']))).toBe(true)
    expect(holds(text, wordTerms(['comet', '1']))).toBe(true)
    expect(holds(text, wordTerms(['1', 'comet']))).toBe(false)
    expect(holds(text, wordTerms(['omet']))).toBe(false)
    expect(holds(text, startTerms(['comet', '12']))).toBe(true)
    expect(holds(text, startTerms(['red']))).toBe(false)
    expect(holds(text, topicTerms(['comets'], new Set(['comets'])))).toBe(true)
    expect(holds(text, topicTerms(['red', 'comet'], new Set(['red', 'comet'])))).toBe(false)
  })
})
