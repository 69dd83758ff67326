import { describe, expect, it } from 'vitest'
import { readWordTables } from '../../server/web/language.ts'
import type { Message } from '../../server/words/words.ts'

const { en: english = {}, ...others } = readWordTables()

const formsOf = (message: Message | undefined): readonly string[] =>
  typeof message === 'object' ? Object.values(message) : message === undefined ? [] : [message]
const blanksOf = (text: string): readonly string[] =>
  [...new Set([...text.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name))].sort()
/** Every blank that any form of a message names. */
const allBlanks = (message: Message | undefined): readonly string[] =>
  [...new Set(formsOf(message).flatMap(blanksOf))].sort()

describe.each(Object.entries(others))('the sentences in %s', (language, table) => {
  it('are those of English, one by one', () => {
    expect(Object.keys(english).length).toBeGreaterThan(3_000)
    expect(Object.keys(table)).toEqual(Object.keys(english))
  })

  it('have the same blanks to be filled', () => {
    const differing = Object.keys(english).filter(
      (key) => JSON.stringify(allBlanks(table[key])) !== JSON.stringify(allBlanks(english[key])),
    )
    expect(differing).toEqual([])
  })

  it('have every plural form that the language needs, where English has some', () => {
    const categories = new Intl.PluralRules(language).resolvedOptions().pluralCategories.toSorted()
    const wrong = Object.entries(english).filter(([key, message]) => {
      const other = table[key]
      if (typeof message === 'string') return typeof other !== 'string'
      return typeof other !== 'object' || Object.keys(other).toSorted().join() !== categories.join()
    })
    expect(wrong.map(([key]) => key)).toEqual([])
  })

  it('are not English left standing: hardly any is the same', () => {
    const same = Object.keys(english).filter(
      (key) => JSON.stringify(table[key]) === JSON.stringify(english[key]) && formsOf(english[key]).some(isSentence),
    )
    expect(same).toEqual([])
  })
})

/** Four words or more: names and units may be the same. */
const isSentence = (text: string): boolean =>
  text
    .replace(/\{\w+\}/g, '')
    .split(/\s+/)
    .filter((word) => /\p{L}{2}/u.test(word)).length >= 4

it('there is a second language', () => {
  expect(Object.keys(others)).toEqual(['de'])
})
