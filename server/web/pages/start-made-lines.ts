import { skyMagOfClass } from '../../sight/site-light.ts'
import { eveningDate, nightHours } from '../../tours/hours.ts'
import type { Night, Station } from '../../tours/night.ts'
import { ASSUMED_SKY_CLASS, nearestSkyClass } from '../../tours/site.ts'
import { type StartHours, startHours, USUAL_BEDTIME } from '../../tours/start-hours.ts'
import type { Telescope } from '../../tours/telescope.ts'
import { countOf, usualVisitors } from '../../tours/visitors.ts'
import type { Words } from '../../words/words.ts'
import { ASSUMED_NOTE } from './kit-note.ts'
import { placeText } from './place-text.ts'
import type { Viewer } from './sheet.ts'
import type { StartMadeSubject } from './start-made.ts'

/** One thing that was assumed, or taken as the host has it, and where it is changed. */
export interface MadeLine {
  readonly what: string
  readonly text: string
  readonly change: { readonly href: string; readonly text: string; readonly label: string }
}

/** A line, and whether it was assumed. */
interface Judged {
  readonly line: MadeLine
  readonly isAssumed: boolean
}

/** All that a night of three lines has besides them: of its site, of itself, of its telescopes. */
export const madeLines = (viewer: Viewer, { night, isTown }: Pick<StartMadeSubject, 'night' | 'isTown'>): Judged[] => [
  ...siteLines(viewer.words, night, isTown),
  ...nightLines(viewer.words, night),
  ...night.stations.flatMap(kitLine(viewer)),
]

/** The public hours by the clocks of the field. */
export function hoursOf(words: Words, night: Night): { from: string; to: string } {
  const { opensAt, closesAt } = nightHours(night)
  return { from: words.time(opensAt, night.site.zone), to: words.time(closesAt, night.site.zone) }
}

/** Makes lines that are changed at one address. */
const linesAt =
  (words: Words, href: string) =>
  (what: string, text: string, isAssumed: boolean, part = '') => {
    const change = words.say('page.change')
    const label = words.say('page.change-it', { name: what })
    return { line: { what, text, change: { href: `${href}${part}`, text: change, label } }, isAssumed }
  }

function siteLines(words: Words, { site }: Night, isTown: boolean): Judged[] {
  const line = linesAt(words, `/sites/${site.id}/edit`)
  const isUsualSky = site.skyMag === skyMagOfClass(ASSUMED_SKY_CLASS)
  const isOpen = site.horizon.length === 0
  const sky = { class: nearestSkyClass(site.skyMag) }
  const ground = words.say('page.site-line', { height: words.length(site.heightM, 'meter'), zone: site.zone })
  const place = { name: site.name, place: placeText(words, site), ground }
  return [
    line(words.say('start.line-place'), words.say(isTown ? 'start.place-filled' : 'start.place-kept', place), isTown),
    line(words.say('start.line-sky'), words.say(isUsualSky ? 'start.sky' : 'start.sky-kept', sky), isUsualSky),
    line(words.say('start.line-trees'), words.say(isOpen ? 'start.trees' : 'start.trees-kept'), isOpen, '#skyline'),
  ]
}

function nightLines(words: Words, night: Night): Judged[] {
  const line = linesAt(words, `/nights/${night.id}/edit`)
  const usual = startHours(night.site, eveningDate(night))
  const isUsual = usual.opens === night.opens && usual.closes === night.closes
  const hours = isUsual
    ? [usualText(words, usual, night), ...darkText(words, usual, night)]
    : [words.say('start.hours-kept', hoursOf(words, night))]
  return [
    line(words.say('start.line-hours'), hours.join(' '), isUsual),
    line(words.say('start.line-people'), ...peopleText(words, night)),
    line(words.say('start.line-operators'), ...operatorsText(words, night)),
  ]
}

function peopleText(words: Words, night: Night): [text: string, isAssumed: boolean] {
  const { visitors, stations } = night
  if (visitors.length === 0) return [words.say('start.people-none'), true]
  const usual = usualVisitors(night, stations.filter(({ telescope }) => telescope !== null).length)
  const isUsual =
    visitors.length === usual.length &&
    usual.every(({ startsAt, adults, children, seated }) =>
      visitors.some(
        (row) =>
          row.startsAt === startsAt && row.adults === adults && row.children === children && row.seated === seated,
      ),
    )
  if (isUsual) return [words.say('start.people'), true]
  return [words.say('start.people-kept', { count: Math.max(...visitors.map(countOf)) }), false]
}

function operatorsText(words: Words, { stations }: Night): [text: string, isAssumed: boolean] {
  const alone = stations.filter(({ operator }) => operator === '')
  const named = words.list(stations.flatMap(({ operator }) => (operator === '' ? [] : [operator])))
  if (alone.length === stations.length) return [words.say('start.operators'), true]
  if (alone.length === 0) return [words.say('start.operators-kept', { named }), false]
  const stationNames = words.list(alone.map(({ name }) => name))
  return [words.say('start.operators-some', { named, stations: stationNames }), true]
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
  ({ words, telescopeName }: Viewer) =>
  ({ name, telescope }: Station): Judged[] => {
    if (!telescope) return []
    const isAssumed = telescope.note === ASSUMED_NOTE
    const text = isAssumed
      ? assumedText(words, telescope)
      : words.say('start.kit-kept', { name: telescopeName(telescope) })
    return [linesAt(words, `/telescopes/${telescope.id}/edit`)(name, text, isAssumed)]
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
