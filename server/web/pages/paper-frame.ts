import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import type { PaperFrame, PaperLook } from './paper.ts'
import { paperSheet, type Viewer } from './sheet.ts'

/** What a printed page is: its name below `/nights/:id/print/`, its title, how it is printed, and what else its address asks. */
interface FramedPaper {
  readonly night: Night
  readonly name: string
  readonly title: string
  readonly look: PaperLook
  readonly asked?: Readonly<Record<string, string>>
}

/** The address of a printed page. */
export const printHref = (
  { id }: Pick<Night, 'id'>,
  name: string,
  look: PaperLook,
  asked: Readonly<Record<string, string>> = {},
): string => `/nights/${id}/print/${name}?${lookText(look, asked)}`

const lookText = ({ paper, letters }: PaperLook, asked: Readonly<Record<string, string>>): string =>
  new URLSearchParams({ paper, ...(letters === 'large' ? { letters } : {}), ...asked }).toString()

/** The frame of a printed page: its paper and letters, the ways to the others, and the way back. */
export function paperFrame(viewer: Viewer, { night, name, title, look, asked = {} }: FramedPaper): PaperFrame {
  const { words } = viewer
  const paper = look.paper === 'a4' ? 'letter' : 'a4'
  const letters = look.letters === 'large' ? 'normal' : 'large'
  return {
    sheet: paperSheet(viewer, `${title}: ${night.title}`),
    ...look,
    isLarge: look.letters === 'large',
    hint: words.say('print.hint'),
    notes: [],
    leftOut: null,
    links: [
      { href: `/nights/${night.id}`, text: words.say('print.back') },
      { href: `/nights/${night.id}/papers?${lookText(look, asked)}`, text: words.say('print.choose') },
      { href: printHref(night, name, { ...look, paper }, asked), text: words.say(`print.use-${paper}`) },
      { href: printHref(night, name, { ...look, letters }, asked), text: words.say(`print.letters-${letters}`) },
    ],
    cardForm: null,
  }
}

/** Night, date and version, which stand on every sheet so that an old one is known for what it is. */
export const versionText = ({ words }: Viewer, night: Night, tour: Tour): string =>
  words.say('print.version', { title: night.title, date: words.date(night.date), version: tour.version })

/** What a paper says when the night was changed after its programme was built; null when all still holds. */
export const staleText = ({ words }: Viewer, isStale: boolean): string | null =>
  isStale ? words.say('print.stale') : null
