import { describe, expect, it } from 'vitest'
import { type CalendarEvent, calendarText } from '../../server/words/calendar.ts'

// RFC 5545 (iCalendar): sections 3.1 (lines and folding) and 3.3.11 (text) as icalendar.org prints them; 3.3.5 (date-times)
// and 3.6.1 (what an event must have) as the notes of another calendar project give them; 3.4, 3.8.1.6 and 3.8.1.11 from memory.
// The reader below is written from those rules, not from the writer.

const AN_EVENT: CalendarEvent = {
  uid: '2026-11-13-night-site-1@duskrow',
  startsAt: new Date('2026-11-13T17:00:00Z'),
  endsAt: new Date('2026-11-13T20:30:00.750Z'),
  summary: 'Observing night',
  description: 'Moon; Saturn, M 13\nBring a lamp \\ red',
  location: 'Sheep meadow',
  place: { latitudeDeg: 47.1, longitudeDeg: -7.25 },
  status: 'CONFIRMED',
}
const STAMP = new Date('2026-11-01T09:08:07.654Z')
const text = (given: Partial<CalendarEvent> = {}): string => calendarText([{ ...AN_EVENT, ...given }], STAMP)
const octets = (line: string): number => new TextEncoder().encode(line).length

/** Content lines as names and values, unfolded; throws on anything that section 3.1 does not know. */
function contentLines(calendar: string): readonly (readonly [string, string])[] {
  if (!calendar.endsWith('\r\n')) throw new Error('The last line does not end')
  const lines = calendar.slice(0, -2).split('\r\n')
  if (lines.some((line) => /[\r\n]/.test(line))) throw new Error('A bare line break')
  if (lines.some((line) => octets(line) > 75)) throw new Error('A line of more than 75 octets')
  const unfolded = lines
    .join('\r\n')
    .replace(/\r\n[ \t]/g, '')
    .split('\r\n')
  return unfolded.map((line) => {
    const [, name, value] = /^([A-Z0-9-]+):(.*)$/.exec(line) ?? []
    if (name === undefined || value === undefined) throw new Error(`No content line: ${line}`)
    return [name, value]
  })
}

const valueIn = (calendar: string, name: string): string | undefined =>
  contentLines(calendar).find(([found]) => found === name)?.[1]

/** What TEXT stands for; throws on a sign that should be escaped. */
function plain(value: string): string {
  if (/(?<!\\)(?:\\\\)*[;,]/.test(value)) throw new Error(`Not escaped: ${value}`)
  return value.replace(/\\([\\;,nN])/g, (_all, sign: string) => (sign.toLowerCase() === 'n' ? '\n' : sign))
}

describe('an iCalendar file', () => {
  it('is one object with what it must say of itself, its components closed in order', () => {
    const names = contentLines(calendarText([AN_EVENT, AN_EVENT], STAMP)).map(([name, value]) =>
      name === 'BEGIN' || name === 'END' ? `${name}:${value}` : name,
    )
    const event = ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SUMMARY', 'DESCRIPTION', 'LOCATION', 'GEO', 'STATUS']
    const component = ['BEGIN:VEVENT', ...event, 'END:VEVENT']
    expect(names).toEqual([
      'BEGIN:VCALENDAR',
      'VERSION',
      'PRODID',
      'CALSCALE',
      ...component,
      ...component,
      'END:VCALENDAR',
    ])
    expect(valueIn(text(), 'VERSION')).toBe('2.0')
  })

  it('writes instants in UTC, to the second', () => {
    expect(valueIn(text(), 'DTSTART')).toBe('20261113T170000Z')
    expect(valueIn(text(), 'DTEND')).toBe('20261113T203000Z')
    expect(valueIn(text(), 'DTSTAMP')).toBe('20261101T090807Z')
  })

  it('writes the examples of the standard as the standard does', () => {
    const conference = text({ description: 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared' })
    expect(valueIn(conference, 'DESCRIPTION')).toBe('Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared')
    expect(valueIn(text({ startsAt: new Date('1998-01-19T07:00:00Z') }), 'DTSTART')).toBe('19980119T070000Z')
  })

  it('gives back every text as it was, with line breaks, commas, semicolons and strokes', () => {
    const strange = 'a,b;c\\d\\n\ne: "f" – ,;'
    expect(plain(valueIn(text({ description: strange }), 'DESCRIPTION') ?? '')).toBe(strange)
    expect(plain(valueIn(text({ summary: 'x\r\ny\rz' }), 'SUMMARY') ?? '')).toBe('x\ny\nz')
    expect(valueIn(text({ location: 'a\u0007b' }), 'LOCATION')).toBe('ab')
  })

  it('folds at 75 octets and cuts no letter in two', () => {
    for (const letter of ['a', 'é', '°', '月', '🌙']) {
      for (const length of [60, 66, 67, 68, 74, 75, 76, 150, 700]) {
        const long = letter.repeat(length)
        const calendar = text({ summary: long })
        expect(valueIn(calendar, 'SUMMARY')).toBe(long)
        const lines = calendar.split('\r\n')
        expect(lines.map((line) => new TextDecoder().decode(new TextEncoder().encode(line)))).toEqual(lines)
      }
    }
  })

  it('gives the place as latitude and longitude, and says what is only meant', () => {
    expect(valueIn(text(), 'GEO')).toBe('47.100000;-7.250000')
    expect(valueIn(text({ status: 'TENTATIVE' }), 'STATUS')).toBe('TENTATIVE')
  })
})
