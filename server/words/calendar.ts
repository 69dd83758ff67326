/** Something with a start and an end, as a calendar takes it. */
export interface CalendarEvent {
  /** The same for the same thing, so that a calendar that knows it already changes it. */
  readonly uid: string
  readonly startsAt: Date
  readonly endsAt: Date
  readonly summary: string
  readonly description: string
  readonly location: string
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number }
  readonly status: 'CONFIRMED' | 'TENTATIVE'
}

/** Events as iCalendar text (RFC 5545): instants in UTC, so that no table of clock changes is needed. */
export const calendarText = (events: readonly CalendarEvent[], stampAt: Date): string =>
  [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Duskrow//Dates//EN',
    'CALSCALE:GREGORIAN',
    ...events.flatMap((event) => eventLines(event, stampAt)),
    'END:VCALENDAR',
  ]
    .map((line) => `${folded(line)}\r\n`)
    .join('')

const eventLines = (event: CalendarEvent, stampAt: Date): readonly string[] => [
  'BEGIN:VEVENT',
  `UID:${escaped(event.uid)}`,
  `DTSTAMP:${instantText(stampAt)}`,
  `DTSTART:${instantText(event.startsAt)}`,
  `DTEND:${instantText(event.endsAt)}`,
  `SUMMARY:${escaped(event.summary)}`,
  `DESCRIPTION:${escaped(event.description)}`,
  `LOCATION:${escaped(event.location)}`,
  `GEO:${event.place.latitudeDeg.toFixed(6)};${event.place.longitudeDeg.toFixed(6)}`,
  `STATUS:${event.status}`,
  'END:VEVENT',
]

/** Section 3.3.5, form 2. */
const instantText = (at: Date): string => at.toISOString().replace(/[-:]|\.\d{3}/g, '')

/** Section 3.3.11: a line break is written out, and other control characters do not belong into text. */
const escaped = (text: string): string =>
  text
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|\r|\n/g, '\\n')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
    .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '')

const LINE_OCTETS = 75

/** Section 3.1: no line is longer than 75 octets, what follows starts with a space, and no letter is cut in two. */
function folded(line: string): string {
  const lines = ['']
  let octets = 0
  for (const letter of line) {
    const more = new TextEncoder().encode(letter).length
    if (octets + more > LINE_OCTETS) {
      lines.push(' ')
      octets = 1
    }
    lines[lines.length - 1] += letter
    octets += more
  }
  return lines.join('\r\n')
}
