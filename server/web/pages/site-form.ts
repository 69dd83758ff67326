import type { Town } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { placeText } from './place-text.ts'
import { pointText } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

export interface SiteFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly search: TownSearch
  readonly problems: ProblemList | null
  readonly placeLabel: string
  readonly fields: readonly Field[]
  readonly skylineLabel: string
  readonly skylineHint: string
  readonly pointLabel: string
  readonly heightLabel: string
  readonly nameLabel: string
  readonly skyline: readonly { readonly point: string; readonly height: Field; readonly name: Field }[]
  readonly save: string
}

export interface TownSearch {
  readonly label: string
  readonly hint: string
  readonly query: string
  readonly button: string
  readonly towns: readonly { readonly href: string; readonly name: string; readonly detail: string }[]
  readonly noneText: string | null
  readonly chosenText: string | null
}

/** How many corners of the skyline the form asks for: one at each of sixteen compass points. */
export const SKYLINE_POINTS = 16
const POINT_DEG = 360 / SKYLINE_POINTS

/** Azimuth in degrees of a compass point of the form, 0 for north. */
export const pointAzimuthDeg = (point: number): number => point * POINT_DEG

export interface SiteFormSubject {
  readonly state: FormState
  readonly query: string
  readonly towns: readonly Town[]
  readonly chosen: Town | undefined
}

/** The form of a new site, filled from a town when one was chosen. */
export function siteFormPage(viewer: Viewer, subject: SiteFormSubject): SiteFormPage {
  const { words } = viewer
  const fields = placeFields(words, subject.state)
  const skyline = skylineRows(words, subject.state)
  const shown = [...fields, ...skyline.flatMap(({ height, name }) => [height, name])]
  return {
    sheet: daySheet(viewer, words.say('page.new-site'), null),
    title: words.say('page.new-site'),
    intro: words.say('page.new-site-intro'),
    search: townSearch(words, subject),
    problems: problemList(words, subject.state, shown),
    placeLabel: words.say('page.site-place'),
    fields,
    skylineLabel: words.say('page.skyline'),
    skylineHint: words.say('page.skyline-hint'),
    pointLabel: words.say('page.skyline-point'),
    heightLabel: words.say('page.skyline-height'),
    nameLabel: words.say('page.skyline-name'),
    skyline,
    save: words.say('page.save-site'),
  }
}

function townSearch(words: Words, { query, towns, chosen }: SiteFormSubject): TownSearch {
  return {
    label: words.say('page.town'),
    hint: words.say('page.town-hint'),
    query,
    button: words.say('page.town-search'),
    towns: towns.map((town, index) => ({
      href: `/sites/new?q=${encodeURIComponent(query)}&town=${index}`,
      name: town.name,
      detail: [town.region, town.country, placeText(words, town)].filter(Boolean).join(', '),
    })),
    noneText: query !== '' && towns.length === 0 ? words.say('page.town-none', { query }) : null,
    chosenText: chosen ? words.say('page.town-chosen', { town: chosen.name }) : null,
  }
}

function placeFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const ask = (key: string) => ({ label: words.say(`page.site-${key}`), hint: words.say(`page.site-${key}-hint`) })
  return [
    form.text('name', { ...ask('name'), isWide: true }),
    form.number('latitudeDeg', ask('latitude')),
    form.number('longitudeDeg', ask('longitude')),
    form.number('heightM', ask('height')),
    form.text('zone', ask('zone')),
    form.number('skyMag', { ...ask('sky'), fallback: '20', isWide: true }),
  ]
}

function skylineRows(words: Words, state: FormState): SiteFormPage['skyline'] {
  const form = formFields(words, state)
  return Array.from({ length: SKYLINE_POINTS }, (_, index) => {
    const point = pointText(words, index)
    return {
      point,
      height: form.number(`horizon.${index}.altitudeDeg`, { label: words.say('page.skyline-height-at', { point }) }),
      name: form.text(`horizon.${index}.name`, { label: words.say('page.skyline-name-at', { point }) }),
    }
  })
}
