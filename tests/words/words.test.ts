import { describe, expect, it } from 'vitest'
import { createWords } from '../../server/words/words.ts'

const table = {
  greet: 'Hello {name}, until {time}',
  looks: { one: '{count} look', other: '{count} looks' },
}
const english = createWords(table, { language: 'en', hours12: false, units: 'metric' })

describe('words', () => {
  it('fills the blanks of a message', () => {
    expect(english.say('greet', { name: 'Ana', time: '18:40' })).toBe('Hello Ana, until 18:40')
  })

  it('chooses the plural form by the count', () => {
    expect(english.say('looks', { count: 1 })).toBe('1 look')
    expect(english.say('looks', { count: 0 })).toBe('0 looks')
  })

  it('refuses a sentence that nobody has written', () => {
    expect(() => english.say('nothing')).toThrow('No message named nothing')
    expect(english.knows('nothing')).toBe(false)
  })

  it('writes figures with the mark of its language, and leaves other texts alone', () => {
    const german = createWords(table, { ...english.settings, language: 'de' })
    const texts = ['0.28', '-5.39', '450', '1.2.3', '48° 7.4′', '']
    expect(texts.map(german.figures)).toEqual(['0,28', '-5,39', '450', '1.2.3', '48° 7.4′', ''])
    expect(texts.map(english.figures)).toEqual(texts)
  })

  it('names the months, long and short, and the day of an instant in its zone', () => {
    expect([1, 12].map((month) => english.month(month))).toEqual(['January', 'December'])
    expect(english.month(9, 'short')).toMatch(/^Sept?$/)
    expect(english.dayAndMonth(new Date('2026-12-13T23:30:00Z'), 'Europe/Zurich')).toBe('14 December')
  })

  it('shows an instant by the clocks of the zone, in 24 or 12 hours', () => {
    const at = new Date('2026-12-17T17:20:00Z')
    expect(english.time(at, 'Europe/Zurich')).toBe('18:20')
    const twelve = createWords(table, { language: 'en', hours12: true, units: 'metric' })
    expect(twelve.time(at, 'Europe/Zurich').toLowerCase()).toMatch(/^6:20\spm$/)
    expect(english.time(new Date('2026-12-16T23:05:00Z'), 'Europe/Zurich')).toBe('00:05')
  })

  it('says of a time that comes twice in a night when it comes for the second time', () => {
    const told = createWords({ ...table, 'page.second-time': 'second {time}' }, english.settings)
    expect(told.time(new Date('2027-10-31T00:15:00Z'), 'Europe/Zurich')).toBe('02:15')
    expect(told.time(new Date('2027-10-31T01:15:00Z'), 'Europe/Zurich')).toBe('second 02:15')
    expect(told.time(new Date('2027-10-31T02:15:00Z'), 'Europe/Zurich')).toBe('03:15')
    expect(told.time(new Date('2027-04-03T15:10:00Z'), 'Australia/Lord_Howe')).toBe('second 01:40')
    expect(told.time(new Date('2027-03-28T01:15:00Z'), 'Europe/Zurich')).toBe('03:15')
  })

  it('writes the month as a word, so that day and month cannot be swapped', () => {
    expect(english.date('2026-12-07')).toBe('Monday 7 December 2026')
    const inWords = (language: string, hours12: boolean) =>
      createWords(table, { language, hours12, units: 'metric' }).date('2026-12-07')
    expect(inWords('en', true)).toBe('Monday, December 7, 2026')
    expect(inWords('de', false)).toBe('Montag, 7. Dezember 2026')
  })

  it('joins names as the language does', () => {
    expect(english.list(['Moon', 'Saturn', 'Pleiades'])).toBe('Moon, Saturn, and Pleiades')
    expect(english.number(1234.5, 1)).toBe('1,234.5')
  })
})
