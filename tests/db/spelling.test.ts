import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isOneSlipFrom, otherReadings } from '../../db/catalogue/spelling.ts'

const KNOWN = new Set([
  'andromeda',
  'betelgeuse',
  'nebula',
  'orion',
  'orions',
  'messier',
  'mira',
  'lyra',
  'ring',
  'rings',
])

describe('one slip', () => {
  it.each([
    ['adromeda', 'andromeda'],
    ['anddromeda', 'andromeda'],
    ['xandromeda', 'andromeda'],
    ['andrameda', 'andromeda'],
    ['nadromeda', 'andromeda'],
    ['plaides', 'pleiades'],
    ['betelgeux', 'betelgeuse'],
    ['saggitarius', 'sagittarius'],
    ['nebla', 'nebula'],
    ['orionn', 'orion'],
    ['adrome', 'andromeda'],
  ])('is all that parts %s from %s', (typed, word) => {
    expect(isOneSlipFrom(typed, word)).toBe(true)
  })

  it.each([
    ['adromda', 'andromeda'],
    ['vegan', 'nebula'],
    ['lyra', 'lynx'],
    ['herb', 'hercules'],
    ['mrs', 'mars rover'],
    ['sirius', 'saturn'],
  ])('does not part %s from %s', (typed, word) => {
    expect(isOneSlipFrom(typed, word)).toBe(false)
  })

  it('is forgiven wherever it falls in a word', () => {
    const letter = fc.constantFrom(...'abcdefghijklmnopqrstuvwxyz')
    const word = fc.array(letter, { minLength: 5, maxLength: 14 }).map((letters) => letters.join(''))
    fc.assert(
      fc.property(word, fc.nat(), letter, fc.nat(3), (whole, place, other, slip) => {
        const at = place % (whole.length - 1)
        const [before, here, next, after] = [
          whole.slice(0, at),
          whole.charAt(at),
          whole.charAt(at + 1),
          whole.slice(at + 2),
        ]
        const slips = [other + here + next, next, other + next, next + here]
        return isOneSlipFrom(before + slips[slip] + after, whole)
      }),
      { numRuns: 2000 },
    )
  })
})

describe('other readings of a question', () => {
  it.each([
    ['orion nebla', ['orion nebula']],
    ['adromeda', ['andromeda']],
    ['mesier 13', ['messier 13']],
    ['lira', ['lyra', 'mira']],
    ['ringg nebla', ['rings nebula', 'ring nebula']],
  ])('of %s are %j', (question, readings) => {
    expect(otherReadings(question.split(' '), KNOWN).map((words) => words.join(' '))).toEqual(readings)
  })

  it.each(['orion', 'orion nebula', 'm 13', 'messier 31', 'xyzzy', 'orion xyzzy', 'mir', 'messier1'])(
    'of %s there are none: known words, short ones and numbers stay, and what is like no word has no reading',
    (question) => {
      expect(otherReadings(question.split(' '), KNOWN)).toEqual([])
    },
  )

  it('are few, whatever is typed', () => {
    const alike = new Set([...'abcdefghijklmnopqrstuvwxyz'].map((letter) => `sta${letter}e`))
    expect(otherReadings(['sta1', 'staxy', 'staxy', 'staxy'], alike).length).toBeLessThanOrEqual(24)
  })
})
