import type { ListedThing, ThingList, ThingQuery } from '../../desk/thing-kinds.ts'
import type { Svg } from '../../drawings/svg.ts'
import { type ThingSubject, thingSmall } from '../../drawings/thing.ts'
import type { Site } from '../../tours/site.ts'
import { OBJECT_KINDS } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { kindText } from './card-face.ts'
import { type Field, formFields, type Option } from './form.ts'
import { whyText } from './own-why.ts'
import { kitText, monthText, seasonText, seenText, siteText } from './season-text.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'

/** A thing of the list in a few lines. */
interface ThingRow {
  readonly href: string
  readonly name: string
  readonly kind: string
  readonly picture: Svg | null
  /** Why anyone would show it. */
  readonly why: string | null
  readonly season: string | null
  /** What the kit shows of it in the month. */
  readonly seen: string | null
  readonly isGood: boolean
}

interface PageLink {
  readonly href: string
  readonly text: string
}

export interface ObjectsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly lead: string
  readonly action: string
  readonly searchField: Field
  readonly filterLabel: string
  readonly filters: readonly Field[]
  readonly isFiltered: boolean
  readonly whence: readonly Field[]
  readonly whenceLabel: string
  readonly goodField: Field
  readonly searchText: string
  readonly showText: string
  readonly standing: string
  readonly notDark: string | null
  readonly count: string
  readonly things: readonly ThingRow[]
  readonly emptyText: string
  readonly pagesLabel: string
  /** Which page of how many; null where there is one alone. */
  readonly pageText: string | null
  readonly previous: PageLink | null
  readonly next: PageLink | null
  readonly own: PageLink
}

interface ObjectsSubject {
  readonly query: ThingQuery
  readonly list: ThingList
  readonly places: readonly Site[]
  readonly pictureOf: (thing: ListedThing) => ThingSubject
  /** Month (`YYYY-MM`) that it is by the evening's clock at the site. */
  readonly thisMonth: string
}

/** The list to browse: what to show first first, with filters that are a plain form. */
export function objectsPage(viewer: Viewer, subject: ObjectsSubject): ObjectsPage {
  const { words } = viewer
  const { query, list } = subject
  const values = { place: siteText(viewer, list.site), month: monthText(words, list.month) }
  return {
    sheet: daySheet(viewer, words.say('objects.title'), 'objects'),
    title: words.say('objects.title'),
    lead: words.say('objects.lead'),
    action: '/objects',
    ...formOf(viewer, subject),
    standing: words.say('objects.standing', { ...values, kit: kitText(viewer, list) }),
    notDark: list.isDark ? null : words.say('objects.not-dark', values),
    count: words.say('objects.count', { count: list.total, total: words.number(list.total) }),
    things: list.things.map((thing) => row(viewer, subject, thing)),
    emptyText: words.say(query.text === '' ? 'objects.none' : 'objects.none-called', { query: query.text }),
    pagesLabel: words.say('objects.pages'),
    pageText: list.pages > 1 ? words.say('objects.page', { page: list.page, pages: list.pages }) : null,
    previous: list.page > 1 ? pageLink(words, query, list.page - 1, 'objects.previous') : null,
    next: list.page < list.pages ? pageLink(words, query, list.page + 1, 'objects.next') : null,
    own: { href: '/extras', text: words.say('own.link') },
  }
}

/** The address of one page of the list as it is filtered now. */
export function listHref(query: ThingQuery, page: number): string {
  const params = Object.entries({
    q: query.text,
    kind: query.kind,
    constellation: query.constellation,
    evening: query.evening,
    site: query.siteId,
    month: query.month,
    good: query.isGoodOnly ? 'true' : null,
    page: page > 1 ? page : null,
  }).filter(([, value]) => value !== null && value !== '')
  const text = new URLSearchParams(Object.fromEntries(params.map(([name, value]) => [name, String(value)]))).toString()
  return text === '' ? '/objects' : `/objects?${text}`
}

const pageLink = (words: Words, query: ThingQuery, page: number, code: string): PageLink => ({
  href: listHref(query, page),
  text: words.say(code),
})

function row(viewer: Viewer, { list, pictureOf }: ObjectsSubject, thing: ListedThing): ThingRow {
  const { words } = viewer
  const { hit, object, seasonal } = thing
  return {
    href: `/objects/${hit.key}`,
    name: words.called(hit.name),
    kind: hit.kind === 'moon' ? '' : kindText(words, hit),
    picture: thingSmall(pictureOf(thing)),
    why: object && whyText(words, object.appealReason),
    season: seasonal && seasonText(words, seasonal.season, object, list.site),
    seen: object && seasonal && seenText(viewer, list, object, seasonal),
    isGood: seasonal?.isGood === true,
  }
}

type Choice = Omit<Option, 'isChosen'>

function formOf(viewer: Viewer, { query, list, places, thisMonth }: ObjectsSubject) {
  const { words } = viewer
  const { text, choice, tick } = formFields(words, { values: valuesOf(query, list), problems: [] })
  const any: Choice = { value: '', text: words.say('objects.any') }
  const kinds = OBJECT_KINDS.map((kind) => ({ value: kind, text: words.say(`kind.${kind}`) }))
  return {
    searchField: text('q', { label: words.say('objects.search') }),
    filterLabel: words.say('objects.filters'),
    filters: [
      choice('kind', { label: words.say('objects.kind') }, [any, ...kinds]),
      choice('constellation', { label: words.say('objects.constellation') }, [any, ...constellations(words, list)]),
      choice('evening', { label: words.say('objects.evening') }, [any, ...months(words)]),
    ],
    isFiltered: query.kind !== null || query.constellation !== null || query.evening !== null,
    whenceLabel: words.say('objects.whence'),
    whence: [
      choice(
        'site',
        { label: words.say('objects.site') },
        places.map((site) => ({ value: site.id, text: siteText(viewer, site) })),
      ),
      choice('month', { label: words.say('objects.month') }, comingMonths(words, thisMonth, list.month)),
    ],
    goodField: tick('good', { label: words.say('objects.good') }),
    searchText: words.say('page.objects-search'),
    showText: words.say('objects.show'),
  }
}

const valuesOf = (query: ThingQuery, { site, month }: ThingList): Record<string, string> => ({
  q: query.text,
  kind: query.kind ?? '',
  constellation: query.constellation ?? '',
  evening: query.evening === null ? '' : String(query.evening),
  site: site.id,
  month,
  ...(query.isGoodOnly ? { good: 'true' } : {}),
})

const constellations = (words: Words, list: ThingList): Choice[] =>
  list.constellations
    .map((code) => ({ value: code, text: words.say(`constellation.${code}`) }))
    .sort((a, b) => a.text.localeCompare(b.text, words.settings.language))

const months = (words: Words): Choice[] =>
  Array.from({ length: 12 }, (_, i) => ({ value: String(i + 1), text: words.month(i + 1) }))

/** A year of months from this one on, and the one that is asked for where it is none of them. */
function comingMonths(words: Words, thisMonth: string, asked: string): Choice[] {
  const [year = 0, first = 1] = thisMonth.split('-').map(Number)
  const coming = Array.from({ length: 12 }, (_, i) => {
    const later = first - 1 + i
    return `${year + Math.floor(later / 12)}-${String((later % 12) + 1).padStart(2, '0')}`
  })
  const all = coming.includes(asked) ? coming : [asked, ...coming]
  return all.map((month) => ({ value: month, text: monthText(words, month) }))
}
