import { type FactorRange, type NewcomerFactor, PRIOR } from '../../sight/newcomer.ts'
import type { FactorInUse, SiteLearning, TelescopeFactor } from '../../tours/learning.ts'
import type { Site } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

interface Choice {
  readonly act: 'use' | 'usual'
  readonly factor: string
  readonly text: string
  readonly isQuiet: boolean
}

export interface NewcomersPage {
  readonly sheet: Sheet
  readonly title: string
  readonly lead: string
  readonly notice: string | null
  readonly tapsLabel: string
  readonly taps: readonly string[]
  readonly telescopesLabel: string
  readonly telescopesHint: string
  readonly heads: readonly string[]
  readonly telescopes: readonly {
    readonly name: string
    readonly taps: string
    readonly factor: string
    readonly between: string
  }[]
  readonly inUseLabel: string
  readonly inUse: string
  readonly nightsKeep: string
  readonly action: string
  readonly choices: readonly Choice[]
  readonly backText: string
}

interface NewcomersSubject {
  readonly site: Site
  readonly learning: SiteLearning
  readonly inUse: FactorInUse | undefined
  /** Code of what stopped the host's choice, or null. */
  readonly trouble: string | null
}

/** What the taps of the field say of the newcomers at a site, and the host's choice to go by them. */
export function newcomersPage(viewer: Viewer, subject: NewcomersSubject): NewcomersPage {
  const { words } = viewer
  const { site, learning, inUse, trouble } = subject
  const title = words.say('newcomers.title', { site: viewer.siteName(site) })
  return {
    sheet: daySheet(viewer, title, 'sites'),
    title,
    lead: words.say('newcomers.lead'),
    notice: trouble === null ? null : words.say(trouble),
    tapsLabel: words.say('newcomers.taps'),
    taps: tapTexts(words, learning),
    telescopesLabel: words.say('newcomers.telescopes'),
    telescopesHint: words.say('newcomers.telescopes-hint'),
    heads: ['telescope', 'telling', 'factor', 'between'].map((head) => words.say(`newcomers.head-${head}`)),
    telescopes: learning.telescopes.map((telescope) => telescopeRow(viewer, telescope)),
    inUseLabel: words.say('newcomers.in-use-label'),
    inUse: inUse ? inUseText(words, inUse, site.zone) : words.say('newcomers.in-use-usual', rangeText(words, PRIOR)),
    nightsKeep: words.say('newcomers.nights-keep'),
    action: `/sites/${site.id}/newcomers`,
    choices: viewer.mayHost ? choices(words, learning.site, inUse) : [],
    backText: words.say('page.sites'),
  }
}

/** A factor and its range to the tenth, as values of a sentence. */
export const rangeText = (words: Words, { factor, low, high }: FactorRange) => ({
  factor: words.number(factor, 1),
  low: words.number(low, 1),
  high: words.number(high, 1),
})

function tapTexts(words: Words, { site, marks }: SiteLearning): string[] {
  const count = site.telling === marks ? 'newcomers.counted-all' : 'newcomers.counted'
  const counted = words.say(count, { count: marks, telling: site.telling })
  if (site.telling === 0) {
    return [words.say('newcomers.none', rangeText(words, PRIOR)), ...(marks === 0 ? [] : [counted])]
  }
  return [
    words.say('newcomers.estimate', { count: site.telling, ...rangeText(words, site) }),
    comparedText(words, site),
    words.say('newcomers.prior', rangeText(words, PRIOR)),
    counted,
  ]
}

const AS_GOOD_MAG = 0.1

/** How much fainter or brighter than usual the things are that newcomers here just see. */
function comparedText(words: Words, { factor }: NewcomerFactor): string {
  const mag = 2.5 * Math.log10(PRIOR.factor / factor)
  if (Math.abs(mag) < AS_GOOD_MAG) return words.say('newcomers.as-usual')
  return words.say(mag > 0 ? 'newcomers.fainter' : 'newcomers.brighter', { mag: words.number(Math.abs(mag), 1) })
}

const telescopeRow = (
  { words, telescopeName }: Viewer,
  telescope: TelescopeFactor,
): NewcomersPage['telescopes'][number] => ({
  name: telescopeName({ id: telescope.telescopeId, name: telescope.name }),
  taps: words.number(telescope.telling),
  factor: words.number(telescope.factor, 1),
  between: words.say('newcomers.between', rangeText(words, telescope)),
})

const inUseText = (words: Words, inUse: FactorInUse, zone: string): string =>
  words.say('newcomers.in-use', {
    ...rangeText(words, inUse),
    count: inUse.marks,
    date: words.date(calendarDate(inUse.setAt, zone)),
  })

const calendarDate = (at: Date, zone: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(at)

/** What the host may do: take the number that the taps give now, when it is another than the one in use, or drop it. */
function choices(words: Words, site: NewcomerFactor, inUse: FactorInUse | undefined): Choice[] {
  const told = site.factor.toFixed(1)
  const isNew = site.telling > 0 && told !== inUse?.factor.toFixed(1)
  const take = words.say('newcomers.use', rangeText(words, site))
  const drop = words.say('newcomers.usual', { factor: words.number(PRIOR.factor) })
  return [
    ...(isNew ? [{ act: 'use', factor: told, text: take, isQuiet: false } as const] : []),
    ...(inUse ? [{ act: 'usual', factor: '', text: drop, isQuiet: true } as const] : []),
  ]
}
