import type { ChartDesk } from '../../server/desk/charts.ts'
import { type BareEyesMonth, bareEyesMonth } from '../../server/tours/bare-eyes-month.ts'
import type { Night } from '../../server/tours/night.ts'

/** Reckoned once for all services of a test, as the desk keeps it. */
const months = new Map<string, BareEyesMonth>()
const MOST_MONTHS = 50

function monthOf({ site, date }: Night): BareEyesMonth {
  const name = JSON.stringify([site, date])
  const month = months.get(name) ?? bareEyesMonth(site, date, [])
  if (months.size > MOST_MONTHS) months.clear()
  months.set(name, month)
  return month
}

/** Charts of a sky without a star. */
export const fakeCharts = (night: (id: string) => Night): ChartDesk => ({
  sky: (id, _tour, at) => ({
    limitV: 4,
    stars: [],
    strokes: [],
    site: night(id).site,
    at,
    targets: [],
    targetConstellations: [],
    bodies: [],
    sun: { altitudeDeg: -30, azimuthDeg: 0 },
  }),
  finder: ({ key, site, at, mainFieldDeg }) => ({
    target: { name: key, magnitude: null, isPoint: false, direction: { altitudeDeg: 30, azimuthDeg: 180 } },
    way: { kind: 'none', cause: { code: 'low' } },
    stars: [],
    figures: [],
    at,
    zone: site.zone,
    horizon: site.horizon,
    finderFieldDeg: 5,
    finderView: null,
    mainFieldDeg,
    limitV: 5,
  }),
  walks: async () => [],
  bareEyes: (id) => monthOf(night(id)),
  starsIn: () => [],
})
