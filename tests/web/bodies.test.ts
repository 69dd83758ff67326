import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { filledFields } from '../../server/web/bodies.ts'

describe('the fields of a form', () => {
  it('leave out what is blank and keep repeated names as a list', () => {
    expect({ ...filledFields('name=Oak+field&heightM=&day=a&day=b&day=') }).toEqual({
      name: 'Oak field',
      day: ['a', 'b'],
    })
  })

  it('are without signs that nobody sees, and blank where nothing else was typed', () => {
    const typed = {
      name: 'O\0ak\u202e\x07',
      note: 'a\u2028b\vc',
      list: 'a\r\n\tb',
      family: '👨\u200d👩',
      zone: '\u200b\ufeff',
    }
    const kept = { name: 'Oak', note: 'a b c', list: 'a\r\n\tb', family: '👨\u200d👩' }
    expect({ ...filledFields(new URLSearchParams(typed).toString()) }).toEqual(kept)
  })

  it('never reach a prototype', () => {
    const fields = filledFields('__proto__=x&constructor=y')
    expect(Object.getPrototypeOf(fields)).toBeNull()
    expect(Object.keys(fields)).toEqual(['__proto__', 'constructor'])
    expect(Object.getPrototypeOf({})).toBe(Object.prototype)
  })

  it('carry any text whole', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1 }), (text) => {
        expect(filledFields(new URLSearchParams({ text }).toString()).text).toBe(text)
      }),
    )
  })
})
