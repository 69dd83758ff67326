import { describe, expect, it } from 'vitest'
import type { Story } from '../../server/tours/target.ts'
import { cards } from '../../server/web/pages/cards.ts'
import { papersPage } from '../../server/web/pages/papers.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_STORY, HOST, IN_GERMAN, NAMES, ONE_LANGUAGE, UNTOLD } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

const page = (second = IN_GERMAN, names = NAMES) =>
  cards(HOST, { ...A_FULL_PRINT, night: A_NIGHT, isStale: false, names, second })
const card = (second = IN_GERMAN, names = NAMES) => page(second, names).pages[0]?.sides[0]?.face
const inGerman = (more: Partial<Story>) => ({
  ...IN_GERMAN,
  story: () => ({ ...A_STORY, language: 'de', ...more }),
})
const telling = (more: Partial<Story>) => ({ ...NAMES, story: () => ({ ...A_STORY, ...more }) })
const words = (count: number) => Array.from({ length: count }, () => 'sternig').join(' ')

describe('cards in two languages', () => {
  it('tell the first, and beneath it what the second has of the look and the answer', () => {
    expect(card()).toMatchObject({
      see: A_STORY.see,
      second: { language: 'de', texts: ['Ein runder Nebel.', 'Der Rand ist körnig.'] },
      isTight: false,
    })
    expect(card(inGerman({ how: 'Daneben.', answer: 'Er ist alt.' }))?.second?.texts).toContain('Er ist alt.')
    expect(card(inGerman({ how: 'Daneben.' }))?.second?.texts).not.toContain('Daneben.')
  })

  it('say nothing of a second language in which nothing is told, and leave the room for own words', () => {
    expect(card({ ...IN_GERMAN, story: () => undefined })?.second).toBeNull()
    expect(card(ONE_LANGUAGE, UNTOLD)).toMatchObject({ second: null, ownWords: 'In your own words:' })
    expect(card(IN_GERMAN, UNTOLD)).toMatchObject({ ownWords: null, lines: [] })
  })

  it('grow smaller before they leave anything out, and leave out what is least needed first', () => {
    const parts = (second: ReturnType<typeof inGerman>, names = NAMES) => {
      const { isTight, parts, second: told } = card(second, names) ?? { parts: [] }
      return [isTight, parts.map(({ name }) => name).join(' '), told?.texts.length]
    }
    const all = 'lookFor how compare answer'
    const long = telling({ see: words(8), lookFor: words(8), how: words(8), compare: words(8), answer: words(8) })
    expect(parts(inGerman({ see: 'Ein Nebel.', lookFor: 'Der Rand.', answer: 'Er ist alt.' }))).toEqual([false, all, 3])
    expect(parts(inGerman({ see: words(14), lookFor: words(8), answer: words(8) }))).toEqual([true, all, 3])
    expect(parts(inGerman({ see: words(12), lookFor: words(14), answer: words(22) }), long)).toEqual([
      true,
      'lookFor compare answer',
      2,
    ])
    expect(parts(inGerman({ see: words(22), lookFor: words(22), answer: words(22) }), long)[2]).toBeGreaterThan(0)
  })

  it('offer the languages in which there are words, and keep the choice on the other paper', () => {
    const frame = (second = IN_GERMAN) => papersPage(HOST, { ...A_FULL_PRINT, second }, 'cards')
    const selects = (second = IN_GERMAN) => frame(second).cardForm?.selects.map(({ name }) => name)
    expect(frame().cardForm?.selects[2]).toMatchObject({
      options: [
        { value: '', text: 'None', isChosen: false },
        { value: 'de', text: 'German', isChosen: true },
      ],
    })
    const other = (second = IN_GERMAN) => frame(second).links.find(({ href }) => href.includes('paper=letter'))?.href
    expect(other()).toMatch(/paper=letter&second=de$/)
    expect(selects(ONE_LANGUAGE)).toEqual(['cards', 'backs'])
    expect(other(ONE_LANGUAGE)).toMatch(/paper=letter$/)
  })
})
