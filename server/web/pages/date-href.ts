import type { YearOfDates } from '../../desk/dates.ts'

type Asked = Pick<YearOfDates, 'site' | 'rowIds'>

/** What an address needs to ask for the same site and row. */
export function askedFor({ site, rowIds }: Asked): string {
  const row = rowIds.map((id) => `&row=${encodeURIComponent(id)}`).join('')
  return `site=${encodeURIComponent(site.id)}${row}`
}

/** The address of one date in detail. */
export const dateHref = (at: Asked, date: string): string => `/dates/${date}?${askedFor(at)}`
