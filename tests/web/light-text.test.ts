import { describe, expect, it } from 'vitest'
import { readStories } from '../../db/catalogue/stories.ts'
import { readWorldEvents } from '../../db/catalogue/world-events.ts'
import { readWordTables } from '../../server/web/language.ts'
import { lightText } from '../../server/web/pages/light-text.ts'
import { createWords } from '../../server/words/words.ts'
import { OUTREACH } from '../support/evenings.ts'
import { wordsOf } from '../support/plain-words.ts'
import { showObject } from '../support/show-objects.ts'

const words = createWords(readWordTables().en ?? {}, { language: 'en', hours12: false, units: 'metric' })
const NIGHT = new Date('2026-12-17T18:00:00Z')
const events = readWorldEvents('en')
const said = (distanceLy: number, distancePercent: number) =>
  lightText(words, showObject({ distanceLy, distancePercent }), NIGHT, [])

describe('when light set out, in words', () => {
  it('names the year for near things and counts the years for far ones, no finer than they are known', () => {
    expect(said(25, 3)?.left).toBe('Its light set out in about 2001.')
    expect(said(130, 10)?.left).toBe('Its light set out in about 1900.')
    expect(said(440, 2)?.left).toBe('Its light set out about 440 years ago.')
    expect(said(160_000, 2)?.left).toBe('Its light set out about 160,000 years ago.')
    expect(said(2_540_000, 5)?.left).toBe('Its light set out about 2.5 million years ago.')
    expect(said(31_000_000, 5)?.left).toBe('Its light set out about 31 million years ago.')
  })

  it('says between when and when', () => {
    expect(said(2600, 10)?.between).toBe('That was between about 800 BC and 300 BC.')
    expect(said(440, 2)?.between).toBe('That was between about 1580 and 1595.')
    expect(said(2_500_000, 4)?.between).toBe('That is between 2.4 million and 2.6 million years ago.')
  })

  it('says nothing of what has no distance', () => {
    expect(lightText(words, showObject({ distanceLy: null }), NIGHT, events)).toBeNull()
  })
})

const FACE = ['see', 'lookFor', 'how', 'compare', 'answer'] as const
const objects = OUTREACH
const byKey = new Map(objects.map((object) => [object.key, object]))

describe('with the events that ship', () => {
  it('finds something that happened for every distance of the list', () => {
    const bare = objects.filter(
      (object) => object.distanceLy !== null && !lightText(words, object, NIGHT, events)?.left.includes(', when '),
    )
    expect(bare.map(({ key, distanceLy }) => `${key} ${distanceLy}`)).toEqual([])
  })

  it('is one sentence of 20 words at most, tonight and in ten years', () => {
    for (const at of [NIGHT, new Date('2036-07-01T22:00:00Z')])
      for (const object of objects) {
        const light = lightText(words, object, at, events)
        if (light) expect(wordsOf(light.left).length, `${object.key}: ${light.left}`).toBeLessThanOrEqual(20)
      }
  })

  it('keeps the face of a card within 70 words where it stands in for a comparison', () => {
    for (const story of readStories('en').filter(({ compare }) => compare === '')) {
      const object = byKey.get(story.key)
      const light = object && lightText(words, object, NIGHT, events)
      const face = [...FACE.map((part) => story[part]), light?.left ?? '']
      expect(face.flatMap(wordsOf).length, story.key).toBeLessThanOrEqual(70)
    }
  })
})
