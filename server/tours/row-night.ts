import { DEFAULT_SETTINGS, type Night, type NightSettings } from './night.ts'
import type { Telescope } from './telescope.ts'

/** The date, hours and settings of an evening, and the telescopes that stand on the field. */
type RowNight = Pick<Night, 'id' | 'date' | 'opens' | 'closes' | 'site'> & {
  readonly telescopes: readonly Telescope[]
  readonly settings: Partial<NightSettings>
}

/** A night that nobody plans yet, with a station for each telescope: what could be shown on that evening is asked of it. */
export const rowNight = ({ telescopes, settings, ...evening }: RowNight): Night => ({
  ...evening,
  state: 'planned',
  title: '',
  visitors: [],
  settings: { ...DEFAULT_SETTINGS, ...settings },
  stations: telescopes.map((telescope) => ({
    id: telescope.id,
    name: telescope.name,
    kind: 'telescope',
    telescope,
    operator: '',
    isForChildren: false,
  })),
})
