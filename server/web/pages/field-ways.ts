import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import type { LookLink } from './field.ts'
import type { FieldGround } from './field-ground.ts'
import { holeHref } from './hole-href.ts'
import { againHref } from './night-links.ts'
import { alignHref, setUpHref } from './set-up-href.ts'
import type { Viewer } from './sheet.ts'

/** The row of a night, for everyone on the field. */
export const rowHref = ({ id }: Pick<Night, 'id'>): string => `/field/${id}`

/** The same page in the other look. */
export const lookLink = (words: Words, look: 'day' | 'lamp', href: string): LookLink =>
  look === 'lamp'
    ? { href: `${href}?look=day`, text: words.say('field.look-day') }
    : { href: `${href}?look=lamp`, text: words.say('field.look-lamp') }

/** From a page of the field to the others of the night; setting up until the gate opens, the change of plan is for the host and the host's phone. */
export function fieldWays({ words, who }: Viewer, { night, tour, field, look }: FieldGround): LookLink[] {
  const isHost = who?.role === 'host' || who?.role === 'host-phone'
  const isBefore = field.at < nightHours(night).opensAt
  return [
    ...(isBefore ? [{ href: `${setUpHref(night)}?look=${look}`, text: words.say('set-up.title') }] : []),
    { href: `${rowHref(night)}/line`, text: words.say('queue.title') },
    { href: `${holeHref(night)}?look=${look}`, text: words.say('hole.title') },
    { href: `${alignHref(night)}?look=${look}`, text: words.say('align.title') },
    ...(tour ? [{ href: `/nights/${night.id}/check?look=${look}`, text: words.say('page.night-link-check') }] : []),
    ...(isHost && tour ? [{ href: againHref(night), text: words.say('again.title') }] : []),
    ...(who?.role === 'host' ? [{ href: `/nights/${night.id}`, text: words.say('field.to-board') }] : []),
  ]
}
