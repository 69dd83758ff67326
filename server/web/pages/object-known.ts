import { figure } from '../../drawings/thing.ts'
import { surfaceBrightness, trueSizeLy } from '../../tours/derived.ts'
import type { Site } from '../../tours/site.ts'
import { starColour } from '../../tours/star-colour.ts'
import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { distanceText, factLines, rounded } from './facts.ts'
import { lightText } from './light-text.ts'
import type { ObjectSubject } from './object-subject.ts'
import { siteText } from './season-text.ts'
import type { Viewer } from './sheet.ts'
import { skyPlaceText } from './sky-place.ts'

/** A few words under a label. */
export interface Labelled {
  readonly label: string
  readonly text: string
}

/** What is known or computed of a thing of the list, as sentences. */
export function knownLines(viewer: Viewer, { one, worldEvents }: ObjectSubject, object: ShowObject): string[] {
  const { words, now } = viewer
  const light = lightText(words, object, now, worldEvents)
  const sizeLy = trueSizeLy(object)
  const colour = object.kind === 'star' || object.kind === 'red-star' ? starColour(object.bv) : null
  return [
    distanceText(words, object),
    light && `${light.left} ${light.between}`,
    sizeLy === null || sizeLy < 1 ? null : words.say('object.true-size', { years: words.number(rounded(sizeLy)) }),
    object.ageMyr === null ? null : ageText(words, object.ageMyr),
    colour && words.say('object.colour', { colour: words.say(`colour.${colour}`) }),
    ...factLines(words, object),
    glowText(viewer, object, one.site),
  ].flatMap((line) => (line === null ? [] : [line.endsWith('.') ? line : `${line}.`]))
}

const MILLION_YEARS_A_BILLION = 1000

const ageText = (words: Words, ageMyr: number): string =>
  ageMyr < MILLION_YEARS_A_BILLION
    ? words.say('object.age-millions', { millions: figure(words, ageMyr < 10 ? ageMyr : rounded(ageMyr)) })
    : words.say('object.age-billions', { billions: figure(words, ageMyr / MILLION_YEARS_A_BILLION) })

const AS_BRIGHT_MAG = 0.3

/** How bright its glow is beside the sky of a site, where it glows. */
function glowText(viewer: Viewer, object: ShowObject, site: Site): string | null {
  const { words } = viewer
  const glow = surfaceBrightness(object)
  if (glow === null) return null
  const fainter = glow - site.skyMag
  const than = Math.abs(fainter) < AS_BRIGHT_MAG ? 'alike' : fainter > 0 ? 'fainter' : 'brighter'
  const values = { mag: words.number(glow, 1), sky: words.number(site.skyMag, 1), place: siteText(viewer, site) }
  return words.say(`object.glow-${than}`, values)
}

/** What is known of a star that is not on the list. */
export function starParts(words: Words, { thing, star }: ObjectSubject): readonly Labelled[] {
  const { raDeg, decDeg, magnitude } = thing
  const colour = starColour(star?.bv ?? null)
  const light =
    magnitude === null ? null : words.say('object.star-magnitude', { magnitude: words.number(magnitude, 1) })
  const parts = [
    { label: words.say('value.magnitude'), text: light },
    { label: words.say('object.star-colour'), text: colour && words.say(`colour.${colour}`) },
    {
      label: words.say('object.star-place'),
      text: raDeg === null || decDeg === null ? null : skyPlaceText(words, raDeg, decDeg),
    },
  ]
  return parts.flatMap(({ label, text }) => (text === null ? [] : [{ label, text }]))
}
