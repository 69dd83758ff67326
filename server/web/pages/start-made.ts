import { skyMagOfClass } from '../../sight/site-light.ts'
import { eveningDate, nightHours } from '../../tours/hours.ts'
import type { Night, Station } from '../../tours/night.ts'
import { ASSUMED_SKY_CLASS, nearestSkyClass } from '../../tours/site.ts'
import { type StartHours, startHours, USUAL_BEDTIME } from '../../tours/start-hours.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Tour } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'
import { placeText } from './place-text.ts'
import { remarkText } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

/** One thing that was assumed or taken, and where it is changed. */
export interface AssumedLine {
  readonly what: string
  readonly text: string
  readonly change: { readonly href: string; readonly text: string; readonly label: string }
}

export interface StartMadePage {
  readonly sheet: Sheet
  readonly title: string
  readonly nightTitle: string
  readonly lead: string
  readonly notices: readonly string[]
  readonly next: {
    readonly label: string
    readonly text: string
    readonly href: string
    readonly button: string
    readonly also: readonly { readonly href: string; readonly text: string }[]
  }
  readonly assumedLabel: string
  readonly assumedText: string
  readonly lines: readonly AssumedLine[]
}

export interface StartMadeSubject {
  readonly night: Night
  readonly tour: Tour | undefined
}

/** What was made of three lines: what of it was assumed, and the one thing to do next. */
export function startMadePage(viewer: Viewer, { night, tour }: StartMadeSubject): StartMadePage {
  const { words } = viewer
  return {
    sheet: daySheet(viewer, night.title, null),
    title: words.say('start.made'),
    nightTitle: night.title,
    lead: leadText(words, night, tour),
    notices: tour?.stops.length === 0 ? tour.notices.map((notice) => remarkText(words, notice)) : [],
    next: {
      label: words.say('page.next-step'),
      text: words.say('start.next'),
      href: `/nights/${night.id}/print/tonight`,
      button: words.say('start.next-button'),
      also: [
        { href: `/nights/${night.id}/papers`, text: words.say('start.next-papers') },
        { href: `/nights/${night.id}/programme`, text: words.say('start.next-programme') },
      ],
    },
    assumedLabel: words.say('start.assumed'),
    assumedText: words.say('start.assumed-text'),
    lines: [...siteLines(words, night), ...nightLines(words, night), ...night.stations.flatMap(kitLine(words))],
  }
}

const leadText = (words: Words, night: Night, tour: Tour | undefined): string =>
  words.say('start.made-lead', {
    count: tour?.stops.length ?? 0,
    date: words.date(eveningDate(night)),
    place: night.site.name,
    ...hoursOf(words, night),
  })

function hoursOf(words: Words, night: Night): { from: string; to: string } {
  const { opensAt, closesAt } = nightHours(night)
  return { from: words.time(opensAt, night.site.zone), to: words.time(closesAt, night.site.zone) }
}

function lineOf(words: Words, what: string, text: string, href: string): AssumedLine {
  const change = words.say('page.change')
  return { what, text, change: { href, text: change, label: words.say('page.change-it', { name: what }) } }
}

function siteLines(words: Words, { site }: Night): AssumedLine[] {
  const href = `/sites/${site.id}/edit`
  const isAssumed = site.skyMag === skyMagOfClass(ASSUMED_SKY_CLASS)
  const sky = { mag: words.number(site.skyMag, 1), class: nearestSkyClass(site.skyMag) }
  const place = placeText(words, site)
  const ground = words.say('page.site-line', { height: words.length(site.heightM, 'meter'), zone: site.zone })
  return [
    lineOf(words, words.say('start.line-place'), words.say('start.place-filled', { place, ground }), href),
    lineOf(words, words.say('start.line-sky'), words.say(isAssumed ? 'start.sky' : 'start.sky-kept', sky), href),
    lineOf(
      words,
      words.say('start.line-trees'),
      words.say(site.horizon.length === 0 ? 'start.trees' : 'start.trees-kept'),
      `${href}#skyline`,
    ),
  ]
}

function nightLines(words: Words, night: Night): AssumedLine[] {
  const href = `/nights/${night.id}/edit`
  const usual = startHours(night.site, eveningDate(night))
  const isAssumed = usual.opens === night.opens && usual.closes === night.closes
  const hours = isAssumed
    ? [usualText(words, usual, night), ...darkText(words, usual, night)]
    : [words.say('start.hours-kept', hoursOf(words, night))]
  return [
    lineOf(words, words.say('start.line-hours'), hours.join(' '), href),
    lineOf(words, words.say('start.line-people'), words.say('start.people'), href),
    lineOf(words, words.say('start.line-operators'), words.say('start.operators'), href),
  ]
}

function usualText(words: Words, { sunsetAt, isLate, isPolarNight }: StartHours, night: Night): string {
  const values = { ...hoursOf(words, night), bedtime: USUAL_BEDTIME }
  if (!sunsetAt) return words.say(isPolarNight ? 'start.hours-polar-night' : 'start.hours-midnight-sun', values)
  const sunset = words.time(sunsetAt, night.site.zone)
  return words.say(isLate ? 'start.hours-late' : 'start.hours', { ...values, sunset })
}

/** Why it is not dark before people go to bed; [] where it is. */
function darkText(words: Words, { noDark, duskAt }: StartHours, { site }: Night): string[] {
  if (noDark === null || noDark === 'midnight-sun') return []
  if (duskAt === null) return [words.say('start.never-dark')]
  return [words.say('start.dusk-late', { time: words.time(duskAt, site.zone) })]
}

/** A telescope of which only the aperture was said, or one of the kit. */
const kitLine =
  (words: Words) =>
  ({ telescope }: Station): AssumedLine[] => {
    if (!telescope) return []
    const isAssumed = telescope.note === words.say('start.kit-note')
    const text = isAssumed ? assumedText(words, telescope) : words.say('start.kit-kept')
    return [lineOf(words, telescope.name, text, `/telescopes/${telescope.id}/edit`)]
  }

const assumedText = (words: Words, { tubes: [tube], eyepieces, mount, axisLowCm, axisHighCm }: Telescope): string =>
  words.say('start.kit', {
    design: words.say(`start.design-${tube?.design ?? 'refractor'}`),
    focal: words.number(tube?.focalLengthMm ?? 0),
    eyepieces: words.list(eyepieces.map(({ name }) => name)),
    mount: words.say(`start.mount-${mount}`),
    height: heightText(words, axisLowCm, axisHighCm),
  })

const heightText = (words: Words, lowCm: number, highCm: number): string =>
  lowCm === highCm
    ? words.length(lowCm, 'centimeter')
    : words.say('page.from-to', { from: words.length(lowCm, 'centimeter'), to: words.length(highCm, 'centimeter') })
