import { describe, expect, it } from 'vitest'
import { shippedWriting } from '../../db/catalogue/shipped.ts'
import { readStories, storiesOf } from '../../db/catalogue/stories.ts'
import { STORY_PARTS } from '../../server/tours/story-parts.ts'
import type { Story } from '../../server/tours/target.ts'
import { OUTREACH } from '../support/evenings.ts'
import { lightYearsSaid, runsOf, schoolGrade, sentencesOf, syllablesOf, wordsOf } from '../support/plain-words.ts'

const SPOKEN = ['see', 'lookFor', 'how', 'compare', 'answer'] as const
const MOST_SHOWN =
  'moon mercury venus mars jupiter saturn uranus neptune m42 m45 m31 m13 m57 m27 m15 m22 m11 m44 m8 m6 m7 m35 m37 m41 ' +
  'm51 m81 m82 m104 m1 ngc869 ngc5139 ngc104 ngc4755 ngc3372 ngc3532 ic2602 hip71683 hip60718 hip95947 hip65378 ' +
  'hip9640 hip36850 hip50583 hip3821 hip91919 hip63125 hip8832 hip102532 hip30867 hip26549 hip13847 hip39953 hip35210 ' +
  'cr399 mel25 mel20 mel111 m3 m5 m92 m2 m4 m46 m67 m103 ngc457 ngc7662 ngc6543 ngc2392 ngc253 ngc5128 ngc2070 ngc2516 ' +
  'ngc6752 ngc6397 hip107259 hip23203 hip27989 hip80763'

const stories = readStories('en')
const objects = new Map(OUTREACH.map((object) => [object.key, object]))
const parts = (story: Story) => STORY_PARTS.map((part) => story[part])
const sentences = (story: Story) => parts(story).flatMap(sentencesOf)

/** What more than one story says, with the keys of those that say it. */
function shared(said: (story: Story) => readonly string[]): readonly string[] {
  const tellers = new Map<string, Set<string>>()
  for (const story of stories)
    for (const run of said(story)) tellers.set(run, (tellers.get(run) ?? new Set()).add(story.key))
  return [...tellers].filter(([, keys]) => keys.size > 1).map(([run, keys]) => `${run} (${[...keys].join(', ')})`)
}

describe('the stories that ship', () => {
  it('tell of everything that is shown most, in both hemispheres', () => {
    const told = stories.map(({ key }) => key)
    expect(MOST_SHOWN.split(' ').filter((key) => !told.includes(key))).toEqual([])
    const decs = stories.map(({ key }) => objects.get(key)?.decDeg ?? 0)
    expect(decs.filter((decDeg) => decDeg > 20).length).toBeGreaterThan(60)
    expect(decs.filter((decDeg) => decDeg < -20).length).toBeGreaterThan(60)
    expect(stories.length).toBeGreaterThanOrEqual(160)
  })

  it('tell only of things on the outreach list, each once', () => {
    expect(stories.filter(({ key }) => !objects.has(key))).toEqual([])
    expect(new Set(stories.map(({ key }) => key)).size).toBe(stories.length)
  })

  // Museum evidence for text that is read standing up: 70 words at most; 25 words are what is said before the look.
  it('are said in 70 words, the first 25 at most before the look', () => {
    for (const story of stories) {
      expect(SPOKEN.flatMap((part) => wordsOf(story[part])).length, story.key).toBeLessThanOrEqual(70)
      expect(wordsOf(story.see).length, story.key).toBeLessThanOrEqual(25)
      expect(wordsOf(story.children).length, story.key).toBeLessThanOrEqual(25)
      expect(wordsOf(story.more).length, story.key).toBeLessThanOrEqual(45)
    }
  })

  it('never say a sentence of more than 20 words', () => {
    for (const story of stories)
      for (const sentence of sentences(story))
        expect(wordsOf(sentence).length, `${story.key}: ${sentence}`).toBeLessThanOrEqual(20)
  })

  it('are read by a child of eleven or twelve', () => {
    for (const story of stories) expect(schoolGrade(parts(story)), story.key).toBeLessThanOrEqual(7)
  })

  it('never share a sentence or six words in a row', () => {
    expect(shared((story) => sentences(story).map((sentence) => wordsOf(sentence).join(' ')))).toEqual([])
    expect(shared((story) => parts(story).flatMap((text) => runsOf(text, 6)))).toEqual([])
  })

  it('are part of the catalogue as it ships', () => {
    expect(shippedWriting().stories.filter(({ language }) => language === 'en')).toEqual(stories)
  })

  it('never raise their voice', () => {
    for (const { key, children, more } of stories) expect(`${children} ${more}`.split('!').length, key).toBeLessThan(3)
    for (const story of stories)
      expect(SPOKEN.map((part) => story[part]).join(' '), story.key).not.toMatch(/!|[A-Z]{4}/)
  })

  it('compare with one number or more, or leave it to the light, whose age is reckoned', () => {
    const NUMBER =
      /\d|\b(one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|half|hundred|thousand|million|twice)\b/
    for (const { key, compare } of stories) if (compare !== '') expect(compare, key).toMatch(NUMBER)
  })

  // Distance and the age of light are reckoned from the column and the night's date, and are not typed twice.
  it('never say how far a thing is, nor when its light set out', () => {
    for (const story of stories)
      for (const part of parts(story)) {
        expect(lightYearsSaid(part), `${story.key}: ${part}`).toEqual([])
        expect(part, story.key).not.toMatch(/\blight\b[^.?!]*\b(left|set out|set off|started|began)\b/i)
      }
  })

  it('name a source for every part', () => {
    for (const story of stories) {
      const told = STORY_PARTS.filter((part) => story[part] !== '')
      expect(Object.keys(story.sources).sort(), story.key).toEqual([...told].sort())
    }
  })
})

describe('the measures of plain words', () => {
  it('count syllables by groups of vowels, a digit as one, a silent e as none', () => {
    const counted =
      'moon 1 saturn 2 little 2 made 1 turned 1 started 2 looks 1 colour 2 galaxy 3 the 1 2,300 4 blue-white 2'
    const words = counted.split(' ')
    for (let i = 0; i < words.length; i += 2) expect(syllablesOf(words[i] ?? ''), words[i]).toBe(Number(words[i + 1]))
  })

  it('grade a hard sentence above an easy one', () => {
    expect(schoolGrade(['The cat sat on the mat.'])).toBeCloseTo(0.39 * 6 + 11.8 - 15.59, 9)
    expect(schoolGrade(['Gravitational interaction inevitably redistributes interstellar material.'])).toBeGreaterThan(
      20,
    )
  })

  it('find distances in light-years, but not widths', () => {
    expect(lightYearsSaid('About 2.5 million light-years off, 12,000 light-years wide.')).toEqual([2_500_000])
    expect(lightYearsSaid('It is about 4.4 light-years off, and more than two light-years across.')).toEqual([4.4])
    expect(lightYearsSaid('About 7,500 light-years away.')).toEqual([7500])
  })
})

const GOOD = {
  key: 'm13',
  see: 'A round glow waits here.',
  lookFor: 'Look for the grains.',
  how: 'Look beside it.',
  compare: 'It is about as old as time.',
  answer: 'No, it is a ball.',
  children: 'Count to ten.',
  more: 'There is more to say.',
  sources: 'see lookFor how: common practice, no source; answer compare children more: from memory',
}
const LIST = new Map([
  ['m13', { distanceLy: 23_000 }],
  ['m92', { distanceLy: null }],
])
const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`
const read = (...rows: readonly Readonly<Record<string, string>>[]) => {
  const text = [Object.keys(rows[0] ?? {}), ...rows.map((row) => Object.values(row))]
    .map((cells) => cells.map(quoted).join(','))
    .join('\n')
  return storiesOf({ name: 'invented.csv', text }, 'en', LIST)
}

it('reads a good row into a story with the source beside each part', () => {
  const { sources: _sources, ...said } = GOOD
  expect(read(GOOD)).toEqual([
    {
      ...said,
      language: 'en',
      sources: {
        ...Object.fromEntries(['see', 'lookFor', 'how'].map((part) => [part, 'common practice, no source'])),
        ...Object.fromEntries(['compare', 'answer', 'children', 'more'].map((part) => [part, 'from memory'])),
      },
    },
  ])
})

describe('refuses, naming file and line,', () => {
  it.each<[string, Readonly<Record<string, string>>, string]>([
    ['a key that is not in its list', { key: 'm999' }, '"m999" is not in the list beside this file'],
    [
      'no comparison where no distance is known either',
      { key: 'm92', compare: '', sources: GOOD.sources.replace(' compare', '') },
      'compare may be empty only beside a distance',
    ],
    ['a part that is missing', { how: '' }, 'how must'],
    ['a part that does not end as a sentence', { see: 'A round glow' }, 'see must match pattern'],
    [
      'a part without a source',
      { sources: 'see lookFor how compare answer children: from memory' },
      'more has no source',
    ],
    [
      'a source of no known kind',
      { sources: 'see: a web page' },
      'source "see: a web page" is not one this list knows',
    ],
    ['a source beside no part', { sources: 'sees: from memory' }, 'source "sees: from memory" stands beside no part'],
  ])('%s', (_what, change, message) => {
    expect(() => read({ ...GOOD, key: 'm92' }, { ...GOOD, ...change })).toThrow(`invented.csv line 3: ${message}`)
  })

  it('a second story of one thing', () => {
    expect(() => read(GOOD, GOOD)).toThrow('invented.csv line 3: "m13" has a story already, at invented.csv line 2')
  })

  it('a column that stories do not have', () => {
    expect(() => read({ ...GOOD, colour: 'red' })).toThrow('invented.csv line 2: colour is no column of the stories')
  })
})
