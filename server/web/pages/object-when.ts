import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { ALL_MONTHS } from '../../tours/season.ts'
import { isForTelescopes, type ShowObject } from '../../tours/target.ts'
import { type Field, formFields } from './form.ts'
import { objectHref } from './night-links.ts'
import type { ObjectSubject } from './object-subject.ts'
import { monthText, seasonText, seenText, siteText } from './season-text.ts'
import type { Viewer } from './sheet.ts'

export interface Link {
  readonly href: string
  readonly text: string
}

/** When a thing is a sight of the evening from a site, what the kit shows of it, and the nights to come. */
export interface When {
  readonly whenLabel: string
  readonly season: string | null
  readonly months: readonly { readonly text: string; readonly isOn: boolean }[]
  readonly seen: string | null
  readonly seenNote: string | null
  readonly whenceLabel: string
  readonly action: string
  readonly whence: readonly Field[]
  readonly showText: string
  readonly nightsLabel: string
  readonly nights: readonly Link[]
}

export function whenOf(viewer: Viewer, subject: ObjectSubject, object: ShowObject | null): When {
  const { words } = viewer
  const { thing, one, places } = subject
  const { site, month, season, seasonal } = one
  const { choice } = formFields(words, { values: { site: site.id }, problems: [] })
  const place = siteText(viewer, site)
  return {
    whenLabel: words.say('object.when', { place }),
    season: season && seasonText(words, season, object, site),
    months:
      season?.code === 'months'
        ? ALL_MONTHS.map((each) => ({ text: words.month(each, 'short'), isOn: season.months.includes(each) }))
        : [],
    seen: object && seasonal && seenText(viewer, one, object, seasonal),
    seenNote: words.say(thing.kind === 'moon' ? 'object.seen-note-moon' : 'object.seen-note', {
      month: monthText(words, month),
    }),
    whenceLabel: words.say('object.whence'),
    action: `/objects/${thing.key}`,
    whence:
      places.length < 2
        ? []
        : [
            choice(
              'site',
              { label: words.say('objects.site') },
              places.map((each) => ({ value: each.id, text: siteText(viewer, each) })),
            ),
          ],
    showText: words.say('object.whence-show'),
    nightsLabel: words.say('object.nights'),
    nights: object && isForTelescopes(object) ? comingNights(viewer, subject.nights, thing.key) : [],
  }
}

function comingNights({ words, now }: Viewer, nights: readonly Night[], key: string): Link[] {
  return nights
    .filter((night) => nightHours(night).closesAt > now)
    .sort((a, b) => a.date.localeCompare(b.date))
    .map((night) => ({
      href: objectHref(night, key),
      text: words.say('object.night', { title: night.title, date: words.date(night.date) }),
    }))
}
