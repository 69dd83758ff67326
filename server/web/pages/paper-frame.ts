import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import type { Paper, PaperFrame } from './paper.ts'
import { paperSheet, type Viewer } from './sheet.ts'

/** The frame of a printed page: its paper, the way to the other paper, and the way back; none of the links is printed. */
export function paperFrame(viewer: Viewer, night: Night, paper: Paper, name: string, titleKey: string): PaperFrame {
  const { words } = viewer
  const other = paper === 'a4' ? 'letter' : 'a4'
  return {
    sheet: paperSheet(viewer, `${words.say(titleKey)}: ${night.title}`),
    paper,
    otherPaper: { href: `/nights/${night.id}/print/${name}?paper=${other}`, text: words.say(`print.use-${other}`) },
    hint: words.say('print.hint'),
    backHref: `/nights/${night.id}`,
    backText: words.say('print.back'),
  }
}

/** Night, date and version, which stand on every sheet so that an old one is known for what it is. */
export const versionText = ({ words }: Viewer, night: Night, tour: Tour): string =>
  words.say('print.version', { title: night.title, date: words.date(night.date), version: tour.version })

/** What a paper says when the night was changed after its programme was built; null when all still holds. */
export const staleText = ({ words }: Viewer, isStale: boolean): string | null =>
  isStale ? words.say('print.stale') : null
