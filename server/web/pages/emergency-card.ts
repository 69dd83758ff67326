import { type EmergencyLine, emergencyLines, type FixedCall, fixedCalls } from './fixed-words.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

interface EmergencyCard {
  readonly title: string
  readonly subtitle: string
  readonly lines: readonly EmergencyLine[]
  readonly sayLabel: string
  readonly say: readonly string[]
  readonly callsLabel: string
  readonly calls: readonly FixedCall[]
  readonly version: string
  readonly stale: string | null
}

const SAY = ['where', 'what', 'how-many', 'wait'] as const

/** What must be at hand when somebody is hurt, and the host's four calls, to be read at arm's length. */
export function emergencyCard(viewer: Viewer, { night, tour, isStale }: PrintSubject): EmergencyCard {
  const { words } = viewer
  return {
    title: words.say('print.emergency'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    lines: emergencyLines(words, night),
    sayLabel: words.say('emergency.say'),
    say: SAY.map((key) => words.say(`emergency.say-${key}`)),
    callsLabel: words.say('print.calls'),
    calls: fixedCalls(words),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
  }
}
