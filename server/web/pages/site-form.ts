import { Value } from 'typebox/value'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { nearestSkyClass, type Site, SiteDraft, SKY_CLASSES, type Town } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, isBegun, type ProblemList, problemList } from './form.ts'
import { placeText } from './place-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import {
  FEWEST_GLOWS,
  fieldsOf,
  type GrowingRows,
  glowRows,
  growing,
  MOST_GLOWS,
  type SiteRowCounts,
} from './site-rows.ts'
import { type SkylineNote, type SkylinePart, skylinePart } from './site-skyline.ts'

export interface SiteFormPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly action: string
  readonly search: TownSearch | null
  readonly problems: ProblemList | null
  readonly placeLabel: string
  readonly fields: readonly Field[]
  /** The town that the form was filled in from, against which a place that was turned round is told. */
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly sky: {
    readonly label: string
    readonly fields: readonly Field[]
    /** The value as this page shows it, so that a class chosen beside it is told from a value that was corrected. */
    readonly shown: string
    readonly note: string | null
    readonly button: string
  }
  readonly skyline: SkylinePart
  readonly glowLabel: string
  readonly isGlowOpen: boolean
  readonly glowHint: string
  readonly glowHeads: readonly string[]
  readonly glow: readonly { readonly fields: readonly Field[] }[]
  readonly glows: GrowingRows
  readonly save: string
}

interface TownSearch {
  readonly label: string
  readonly hint: string
  readonly query: string
  readonly button: string
  readonly towns: readonly { readonly href: string; readonly name: string; readonly detail: string }[]
  readonly noneText: string | null
  readonly chosenText: string | null
}

export interface SiteFormSubject {
  /** The site's id, or null for a new one. */
  readonly id: string | null
  readonly state: FormState
  readonly rows: SiteRowCounts
  /** As much of the skyline as can be drawn, and what there is to say of it. */
  readonly drawn: Site['horizon']
  readonly notes: readonly SkylineNote[]
  /** What was searched among the towns; null where the place is known. */
  readonly search: { readonly query: string; readonly towns: readonly Town[]; readonly chosen: Town | undefined } | null
}

/** The form of a site, new (filled from a town when one was chosen) or to be changed. */
export function siteFormPage(viewer: Viewer, subject: SiteFormSubject): SiteFormPage {
  const { words } = viewer
  const { id, state, rows, search } = subject
  const title = words.say(id === null ? 'page.new-site' : 'page.edit-site')
  const fields = placeFields(words, state)
  const sky = skyPart(words, state)
  const skyline = skylinePart(words, { ...subject, corners: rows.corners })
  const glow = glowRows(words, state, rows.glows)
  const shown = [
    ...fields,
    ...sky.fields,
    skyline.list,
    ...skyline.rows.flatMap(fieldsOf),
    ...glow.flatMap((row) => row.fields),
  ]
  return {
    sheet: daySheet(viewer, title, 'sites', ['page.js', 'list-file.js']),
    ...labels(words),
    title,
    intro: words.say(id === null ? 'page.new-site-intro' : 'page.edit-site-intro'),
    action: id === null ? '/sites' : `/sites/${id}`,
    search: search && townSearch(words, search),
    problems: problemList(words, state, shown),
    fields,
    hidden: TOWN_FIELDS.map((name) => ({ name, value: state.values[name] ?? '' })),
    sky,
    skyline,
    glow,
    isGlowOpen: rows.glows > FEWEST_GLOWS || isBegun(glow.flatMap((row) => row.fields)),
    glows: growing('glowRows', rows.glows, MOST_GLOWS, words.say('page.more-rows')),
  }
}

const labels = (words: Words) => ({
  placeLabel: words.say('page.site-place'),
  glowLabel: words.say('page.glow'),
  glowHint: words.say('page.glow-hint'),
  glowHeads: ['from', 'to', 'brighter'].map((part) => words.say(`page.glow-${part}`)),
  save: words.say('page.save-site'),
})

function townSearch(words: Words, { query, towns, chosen }: NonNullable<SiteFormSubject['search']>): TownSearch {
  return {
    label: words.say('page.town'),
    hint: words.say('page.town-hint'),
    query,
    button: words.say('page.town-search'),
    towns: (chosen ? [] : towns).map((town, index) => ({
      href: `/sites/new?q=${encodeURIComponent(query)}&town=${index}`,
      name: town.name,
      detail: [town.region, town.country, placeText(words, town)].filter(Boolean).join(', '),
    })),
    noneText: query !== '' && towns.length === 0 ? words.say('page.town-none', { query }) : null,
    chosenText: chosen ? words.say('page.town-chosen', { town: chosen.name }) : null,
  }
}

const TOWN_FIELDS = ['town.name', 'town.latitudeDeg', 'town.longitudeDeg'] as const

function placeFields(words: Words, state: FormState): Field[] {
  const form = formFields(words, state)
  const isElsewhere = state.problems.some(({ key }) => key === 'problem.zone-elsewhere')
  const ask = (key: string) => ({ label: words.say(`page.site-${key}`), hint: words.say(`page.site-${key}-hint`) })
  return [
    form.text('name', { ...ask('name'), isWide: true }),
    form.text('latitudeDeg', ask('latitude')),
    form.text('longitudeDeg', ask('longitude')),
    form.number('heightM', ask('height')),
    form.text('zone', ask('zone')),
    ...(isElsewhere || state.values.keepZone === 'true'
      ? [form.tick('keepZone', { label: words.say('page.site-keep-zone') })]
      : []),
  ]
}

function skyPart(words: Words, state: FormState): SiteFormPage['sky'] {
  const form = formFields(words, state)
  const ask = (key: string) => ({
    label: words.say(`page.site-${key}`),
    hint: words.say(`page.site-${key}-hint`),
    isWide: true,
  })
  const classes = SKY_CLASSES.map((skyClass) => ({
    value: String(skyClass),
    text: words.say('page.sky-class', { class: skyClass, mag: words.number(skyMagOfClass(skyClass), 1) }),
  }))
  const mag = form.number('skyMag', ask('sky'))
  return {
    label: words.say('page.site-dark'),
    fields: [
      form.choice('skyClass', ask('class'), [{ value: '', text: words.say('page.sky-class-none') }, ...classes]),
      mag,
    ],
    shown: mag.value,
    note: nearText(words, mag),
    button: words.say('page.show-class'),
  }
}

/** Which class a typed value is about; null while it is no value of a sky. */
function nearText(words: Words, { value, isInvalid }: Field): string | null {
  const mag = Number(value.replace(',', '.'))
  if (isInvalid || value === '' || !Value.Check(SiteDraft.properties.skyMag, mag)) return null
  return words.say('page.sky-near', { mag: value, class: nearestSkyClass(mag) })
}
