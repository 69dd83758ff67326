import type { ChartDesk } from '../../server/desk/charts.ts'
import { bareEyesMonth } from '../../server/tours/bare-eyes-month.ts'
import type { Night } from '../../server/tours/night.ts'

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
  bareEyes: (id) => bareEyesMonth(night(id).site, night(id).date, []),
  starsIn: () => [],
})
