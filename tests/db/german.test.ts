import { describe, expect, it } from 'vitest'
import { localNamesOf, readLocalNames, readLocalTexts } from '../../db/catalogue/local-names.ts'
import { constellationRows } from '../../db/catalogue/rows.ts'
import { shippedWriting } from '../../db/catalogue/shipped.ts'
import { readStories } from '../../db/catalogue/stories.ts'
import { readTopics, searchWords, topicsOf } from '../../db/catalogue/topic-words.ts'
import { readWorldEvents } from '../../db/catalogue/world-events.ts'
import { STORY_PARTS } from '../../server/tours/story-parts.ts'
import { OBJECT_KINDS } from '../../server/tours/target.ts'
import { readWordTables } from '../../server/web/language.ts'
import { OUTREACH } from '../support/evenings.ts'
import { sentencesOf } from '../support/plain-words.ts'

const stories = readStories('de')
const names = readLocalNames('de', OUTREACH)
const SPOKEN = ['see', 'lookFor', 'how', 'compare', 'answer'] as const
/** German puts into one word what English says in two or three, so it is held to fewer words. */
const wordsIn = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word)).length

describe('the German stories', () => {
  it('are sixty, each of something that has an English one', () => {
    expect(stories.length).toBeGreaterThanOrEqual(60)
    const english = new Set(readStories('en').map(({ key }) => key))
    expect(stories.filter(({ key }) => !english.has(key))).toEqual([])
    expect(shippedWriting().stories.filter(({ language }) => language === 'de')).toEqual(stories)
  })

  it('are as short as the English ones', () => {
    for (const story of stories) {
      expect(
        SPOKEN.map((part) => wordsIn(story[part])).reduce((a, b) => a + b),
        story.key,
      ).toBeLessThanOrEqual(70)
      expect(wordsIn(story.see), story.key).toBeLessThanOrEqual(25)
      expect(wordsIn(story.children), story.key).toBeLessThanOrEqual(25)
      expect(wordsIn(story.more), story.key).toBeLessThanOrEqual(45)
      for (const sentence of STORY_PARTS.flatMap((part) => sentencesOf(story[part])))
        expect(wordsIn(sentence), `${story.key}: ${sentence}`).toBeLessThanOrEqual(20)
    }
  })

  it('never share a sentence, and never say how far a thing is', () => {
    const said = stories.flatMap((story) => STORY_PARTS.flatMap((part) => sentencesOf(story[part])))
    expect(said.filter((sentence, i) => said.indexOf(sentence) !== i)).toEqual([])
    expect(said.filter((sentence) => /Lichtjahre[ns]? (entfernt|weit weg)/.test(sentence))).toEqual([])
  })
})

describe('the German names', () => {
  it('are of things on the list, and none is the English one', () => {
    expect(names.length).toBeGreaterThan(200)
    expect(names.filter(({ name, called }) => name === called)).toEqual([])
    expect(names.find(({ name }) => name === 'Ring Nebula')?.called).toBe('Ringnebel')
  })

  it('are said for every other name, too, that is made of English words', () => {
    const said = new Set(names.map(({ name }) => name))
    const others = OUTREACH.flatMap(({ designations }) => designations)
    const english = others.filter((other) => / (Nebula|Cluster|Galaxy|Star|Lights|Halo)$|^The /.test(other))
    expect(english.length).toBeGreaterThan(30)
    expect(english.filter((other) => !said.has(other))).toEqual([])
  })

  it('are each of one thing alone', () => {
    const called = names.map((name) => name.called)
    expect(called.filter((name, i) => called.indexOf(name) !== i)).toEqual([])
  })

  it.each([
    ['Nowhere Nebula,Nirgends,from memory', '"Nowhere Nebula" is nowhere on the list'],
    ['Moon,Mond,hearsay', 'source "hearsay" is not one this list knows'],
    ['Moon,Mond,from memory\nMoon,Luna,from memory', '"Moon" is there already'],
    ['Moon, Mond,from memory', 'called'],
  ])('refuse a row that does not hold: %s', (rows, message) => {
    const file = { name: 'invented.csv', text: `name,called,source\n${rows}\n` }
    expect(() => localNamesOf(file, new Set(['Moon']))).toThrow(message)
    expect(() => localNamesOf(file, new Set(['Moon']))).toThrow(/^invented\.csv line \d/)
  })
})

it('every short text of the list is said in German', () => {
  const said = new Set(readLocalTexts('de', OUTREACH).map(({ name }) => name))
  const texts = OUTREACH.flatMap(({ appealReason, note, features }) => [
    appealReason,
    ...(note === null ? [] : [note]),
    ...features.map(({ see }) => see),
  ])
  expect(texts.length).toBeGreaterThan(800)
  expect(texts.filter((text) => !said.has(text))).toEqual([])
})

it('what happened on Earth is told of the same years as in English', () => {
  const years = (language: string) => readWorldEvents(language).map(({ fromYear, toYear }) => [fromYear, toYear])
  expect(years('de')).toEqual(years('en'))
})

describe('the German words to search by', () => {
  const rows = readTopics('de')
  const phrasesOf = (about: string) => rows.find((row) => row.about === about)?.phrases.split('; ') ?? []

  it('name every kind and every constellation, the latter first as pages call it', () => {
    const { de = {} } = readWordTables()
    expect(OBJECT_KINDS.filter((kind) => phrasesOf(kind).length === 0)).toEqual([])
    const codes = [...constellationRows().keys()]
    expect(codes).toHaveLength(88)
    expect(codes.map((code) => phrasesOf(code)[0])).toEqual(codes.map((code) => de[`constellation.${code}`]))
  })

  it.each([
    ['Mond,Mond', 'about'],
    ['moon,Mond;Monde', 'phrases'],
    ['moon,Mond\nmoon,Monde', '"moon" is there already'],
  ])('refuse a row that does not hold: %s', (text, message) => {
    const file = { name: 'invented.csv', text: `about,phrases\n${text}\n` }
    expect(() => topicsOf(file)).toThrow(message)
    expect(() => topicsOf(file)).toThrow(/^invented\.csv line \d/)
  })

  it('are of a kind or a constellation, and are read without their small words', () => {
    expect(() => searchWords([{ about: 'rocket', phrases: 'Rakete' }], [])).toThrow('"rocket" is no kind')
    const { topics, small } = searchWords(rows, constellationRows().values())
    expect(topics.get('Cru')).toEqual(expect.arrayContaining(['crux', 'kreuz sudens']))
    expect(small.has('des')).toBe(true)
  })
})
