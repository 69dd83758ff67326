import type { NightDraft } from '../server/tours/night.ts'
import type { SiteDraft } from '../server/tours/site.ts'
import type { TelescopeDraft } from '../server/tours/telescope.ts'

/**
 * An invented public night as plain data. Until a desk has given real ids, `night.siteId` is `site` and a station's
 * `telescopeId` is the place of its telescope in `telescopes`, counted from 0 and written as text.
 */
export interface DemoEvening {
  readonly site: SiteDraft
  readonly telescopes: readonly TelescopeDraft[]
  readonly night: NightDraft
  /** The clock time at the site, `HH:mm`, at which a rehearsal starts. */
  readonly rehearsesFrom: string
}
