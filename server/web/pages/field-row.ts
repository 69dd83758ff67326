import type { Night, Station } from '../../tours/night.ts'
import type { LookLink } from './field.ts'
import { stationHref } from './field-acts.ts'
import { cloudText, type FieldGround, nowText, stateOf } from './field-ground.ts'
import { fieldWays, lookLink, rowHref } from './field-ways.ts'
import { fieldSheet, type Sheet, type Viewer } from './sheet.ts'

/** One station as anyone on the field sees it. */
interface RowStation {
  readonly id: string
  readonly name: string
  /** Who stands there. */
  readonly who: string | null
  readonly now: string
  readonly until: string | null
  readonly next: string | null
  readonly trouble: string | null
  readonly href: string
  /** The way there, or that one stands there already. */
  readonly open: string
  /** Ties the phone to the station; null for whoever has none, or stands there already. */
  readonly stand: { readonly action: string; readonly stationId: string; readonly text: string } | null
}

export interface FieldRowPage {
  readonly sheet: Sheet
  readonly nightId: string
  readonly tourVersion: number
  readonly version: string
  readonly newPlan: LookLink
  readonly banners: readonly string[]
  readonly title: string
  readonly nightTitle: string
  readonly time: string
  /** What a phone at a telescope is to do first; null once it has its place, and for all others. */
  readonly ask: string | null
  readonly stations: readonly RowStation[]
  readonly emptyText: string | null
  readonly lookLink: LookLink
  readonly ways: readonly LookLink[]
}

export interface FieldRowSubject extends FieldGround {
  /** The phones that are in, with where they stand. */
  readonly phones: readonly { readonly name: string; readonly stationId: string | null }[]
}

/** The row for everyone on the field: who shows what, until when and what next, so that people can be sent on. */
export function fieldRowPage(viewer: Viewer, subject: FieldRowSubject): FieldRowPage {
  const { words } = viewer
  const { night, tour, version, field, look } = subject
  const clouds = cloudText(words, subject)
  return {
    sheet: fieldSheet(viewer, words.say('field.row-of', { title: night.title }), look, ['row.js']),
    nightId: night.id,
    tourVersion: tour?.version ?? 0,
    version,
    newPlan: { href: rowHref(night), text: words.say('field.new-plan') },
    banners: clouds === null ? [] : [clouds],
    title: words.say('field.row'),
    nightTitle: night.title,
    time: words.time(field.at, night.site.zone),
    ask: asksWhere(viewer, night) ? words.say('field.row-ask') : null,
    stations: night.stations.map((station) => rowStation(viewer, subject, station)),
    emptyText: night.stations.length === 0 ? words.say('field.row-empty') : null,
    lookLink: lookLink(words, look, rowHref(night)),
    ways: fieldWays(viewer, subject),
  }
}

function rowStation({ words, who: own }: Viewer, subject: FieldRowSubject, station: Station): RowStation {
  const { night, news } = subject
  const isOut = news.out.includes(station.id)
  const trouble = stateOf(subject, station.id)?.trouble ?? null
  const now = nowText(words, subject, station.id)
  return {
    id: station.id,
    name: station.name,
    who: whoThere(words, subject, station),
    now: isOut ? words.say('field.out') : now.name,
    until: isOut ? null : now.until,
    next: isOut || now.next === null ? null : words.say('field.row-next', { next: now.next }),
    trouble: trouble === null ? null : words.say('field.row-trouble', { what: words.say(`page.trouble-${trouble}`) }),
    href: stationHref(night, station.id),
    ...standOf(words, own, night, station),
  }
}

const asksWhere = ({ who }: Viewer, { stations }: Night): boolean =>
  who?.role === 'operator' && who.stationId === null && stations.length > 0

/** A phone may come to stand anywhere in the row; the laptop and visitors open the page without. */
function standOf(words: Viewer['words'], own: Viewer['who'], night: Night, { id, name }: Station) {
  const isPhone = own !== undefined && own.nightId !== null
  const isThere = isPhone && own.stationId === id
  const text = words.say('field.stand', { station: name })
  const mayStand = isPhone && !isThere
  return {
    open: words.say(isThere ? 'field.stand-own' : 'field.open', { station: name }),
    stand: mayStand ? { action: `${rowHref(night)}/stand`, stationId: id, text } : null,
  }
}

/** The operator of the plan, and the people whose phones stand there. */
function whoThere(words: Viewer['words'], { phones }: FieldRowSubject, { id, operator }: Station): string | null {
  const names = [operator, ...phones.filter(({ stationId }) => stationId === id).map(({ name }) => name)]
  const known = [...new Set(names.filter((name) => name !== ''))]
  return known.length === 0 ? null : words.list(known)
}
