import { type Conditions, DEFAULT_CONDITIONS } from '../../sight/conditions.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { conditionsOf } from '../../tours/evening-chance.ts'
import { eveningDate, nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { usualNight } from '../../tours/shows.ts'
import { nearestSkyClass, type Site, SKY_CLASSES } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'
import type { Viewer } from './sheet.ts'

/** A sky to reckon under, how a list calls it, and the sentence that says what holds under it. */
interface Sky {
  readonly value: string
  readonly text: string
  readonly said: string
  readonly conditions: Conditions
}

interface SkyChoice {
  readonly options: readonly Sky[]
  readonly chosen: Sky
}

interface SkySubject {
  readonly sites: readonly Site[]
  readonly nights: readonly Night[]
  /** The telescope that is asked about; null while it is not kept. */
  readonly telescopeId: string | null
  /** The sky that was asked for, by its value. */
  readonly asked: string | undefined
}

const MOST_NIGHTS = 6

/**
 * The skies to choose from: nights to come, sites by themselves, classes. Without a choice, or with one that is none, the
 * next night that has the telescope in its row, else the next night; without nights to come the site of the last one, else
 * the last site of the list, else the usual sky.
 */
export function skyChoice(viewer: Viewer, { sites, nights, telescopeId, asked }: SkySubject): SkyChoice {
  const { words, now } = viewer
  const coming = comingNights(nights, now)
  const withIt = coming.filter(({ stations }) => stations.some(({ telescope }) => telescope?.id === telescopeId))
  const offered = (withIt.length > 0 ? withIt : coming).slice(0, MOST_NIGHTS)
  const options = [
    ...offered.map((night) => ofNight(viewer, night)),
    ...sites.map((site) => ofSite(viewer, site)),
    ...SKY_CLASSES.map((skyClass) => ofClass(words, skyClass)),
  ]
  const lastSite = [...nights].sort((a, b) => a.date.localeCompare(b.date)).at(-1)?.site ?? sites.at(-1)
  const usual = offered[0]?.id ?? lastSite?.id
  const find = (value: string | undefined) => options.find((option) => option.value === value)
  const chosen = find(asked) ?? find(usual) ?? find(String(nearestSkyClass(DEFAULT_CONDITIONS.zenithMag)))
  if (chosen === undefined) throw new RangeError('There is always a sky of the usual class.')
  return { options, chosen }
}

/** Nights that are not over and not off, the next first. */
const comingNights = (nights: readonly Night[], now: Date): readonly Night[] =>
  nights
    .filter((night) => night.state !== 'off' && night.state !== 'closed' && nightHours(night).closesAt >= now)
    .sort((a, b) => nightHours(a).opensAt.getTime() - nightHours(b).opensAt.getTime())

function ofNight({ words, siteName }: Viewer, night: Night): Sky {
  const values = { date: words.date(eveningDate(night)), site: siteName(night.site) }
  return {
    value: night.id,
    text: words.say('kit.sky-night', values),
    said: words.say('kit.shows-night', values),
    conditions: conditionsOf(night),
  }
}

const ofSite = ({ words, siteName }: Viewer, site: Site): Sky => ({
  value: site.id,
  text: words.say('kit.sky-site', { site: siteName(site) }),
  said: words.say('kit.shows-site', { site: siteName(site) }),
  conditions: usualNight(site.skyMag),
})

function ofClass(words: Words, skyClass: (typeof SKY_CLASSES)[number]): Sky {
  const skyMag = skyMagOfClass(skyClass)
  return {
    value: String(skyClass),
    text: words.say('kit.sky-class', { class: skyClass, mag: words.number(skyMag, 1) }),
    said: words.say('kit.shows-class', { class: skyClass }),
    conditions: usualNight(skyMag),
  }
}

/** The field in which a sky is chosen. */
export function skyField(words: Words, { options, chosen }: SkyChoice, state: FormState): Field {
  const ask = { label: words.say('kit.sky'), fallback: chosen.value, isWide: true }
  return formFields(words, state).choice('sky', ask, options)
}
