import type { ConstellationStore } from '../../db/constellations.ts'
import type { ObjectStore } from '../../db/objects.ts'
import type { StarStore } from '../../db/stars.ts'
import { type SkyStar, type StarsWanted, starsIn } from '../drawings/thing-stars.ts'
import type { ShowObject } from '../tours/target.ts'
import { type BareEyesDesk, bareEyesDesk } from './bare-eyes.ts'
import type { Desk } from './desk.ts'
import { type FinderDesk, finderDesk } from './finder.ts'
import type { Jobs } from './jobs.ts'
import { type SkyChartDesk, skyChartDesk } from './sky-chart.ts'
import { type WalkDesk, walkDesk } from './walks.ts'

/** What the pictures of a night are drawn from. */
export interface ChartDesk {
  /** The whole sky over the site of a night at an instant, with the targets of a programme by their numbers. */
  readonly sky: SkyChartDesk
  /** The way by hand from a bright star to a thing, at a site and an instant. */
  readonly finder: FinderDesk
  readonly walks: WalkDesk
  readonly bareEyes: BareEyesDesk
  /** The stars of the star table that a picture asks for. */
  readonly starsIn: (wanted: StarsWanted | null) => readonly SkyStar[]
}

interface Needs {
  readonly objects: ObjectStore
  readonly stars: StarStore
  readonly constellations: ConstellationStore
  /** The catalogue with the host's own things. */
  readonly looked: Desk['objects']
  readonly findNight: Desk['nights']['find']
  readonly own: () => readonly ShowObject[]
  readonly jobs: Jobs
}

export const chartDesk = (needs: Needs): ChartDesk => ({
  sky: skyChartDesk(needs),
  finder: finderDesk({ ...needs, objects: needs.looked, catalogue: needs.objects }),
  walks: walkDesk(needs),
  bareEyes: bareEyesDesk(needs),
  starsIn: (wanted) => starsIn(needs.stars, wanted),
})
