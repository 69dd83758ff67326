import { DEFAULT_CONDITIONS } from '../../sight/conditions.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { nearestSkyClass, type Site, SKY_CLASSES } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'

/** A sky to reckon under: the sites by their ids, then the classes by their numbers. */
interface Sky {
  readonly value: string
  readonly text: string
  readonly zenithMag: number
}

export interface SkyChoice {
  readonly options: readonly Sky[]
  readonly chosen: Sky
}

/** The skies to choose from; without a choice, or with one that is none, the last site of the list, else the usual sky. */
export function skyChoice(words: Words, sites: readonly Site[], asked: string | undefined): SkyChoice {
  const options = [
    ...sites.map(({ id, name, skyMag }) => ({ value: id, text: name, zenithMag: skyMag })),
    ...SKY_CLASSES.map((skyClass) => ({
      value: String(skyClass),
      text: words.say('page.sky-class', { class: skyClass, mag: words.number(skyMagOfClass(skyClass), 1) }),
      zenithMag: skyMagOfClass(skyClass),
    })),
  ]
  const usual = sites.at(-1)?.id ?? String(nearestSkyClass(DEFAULT_CONDITIONS.zenithMag))
  const find = (value: string | undefined) => options.find((option) => option.value === value)
  const chosen = find(asked) ?? find(usual)
  if (chosen === undefined) throw new RangeError('There is always a sky of the usual class.')
  return { options, chosen }
}

/** The field in which a sky is chosen. */
export function skyField(words: Words, { options, chosen }: SkyChoice, state: FormState): Field {
  const ask = { label: words.say('kit.sky'), fallback: chosen.value, isWide: true }
  return formFields(words, state).choice('sky', ask, options)
}
