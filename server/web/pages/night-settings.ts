import type { FactorInUse } from '../../tours/learning.ts'
import { DEFAULT_SETTINGS } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields } from './form.ts'
import { rangeText } from './newcomers.ts'

/** The newcomer factor that the host has set for a site. */
export interface FactorOfSite extends FactorInUse {
  readonly siteId: string
  readonly site: string
}

/** The fields of what changes what can be seen on a night: air, public and line, then what most nights leave as it is. */
export function settingFields(words: Words, state: FormState, factors: readonly FactorOfSite[]): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(`setting.${key}`), hint: words.say(`setting.${key}-hint`) })
  const numbers = Object.entries(DEFAULT_SETTINGS).map(([key, value]) => {
    const asked = { ...ask(key), fallback: String(value) }
    const isOfSites = key === 'noviceFactor' && factors.length > 0
    return form.number(`settings.${key}`, isOfSites ? { ...asked, ...ofSites(words, asked.hint, factors) } : asked)
  })
  return [
    ...numbers,
    form.number('settings.visitorYears', ask('visitorYears')),
    form.text('settings.schoolClass.startsAt', ask('classStarts')),
    form.text('settings.schoolClass.endsAt', ask('classEnds')),
    form.number('settings.schoolClass.groups', ask('classGroups')),
    form.tick('settings.streetLight', ask('streetLight')),
  ]
}

/** The newcomer factor is left to the site, whichever is chosen, once the host has set one for any. */
function ofSites(words: Words, hint: string, factors: readonly FactorOfSite[]) {
  const each = factors.map((own) =>
    words.say('newcomers.of-site', { site: own.site, count: own.marks, ...rangeText(words, own) }),
  )
  return { hint: [hint, words.say('newcomers.left-blank'), ...each].join(' '), fallback: '' }
}
