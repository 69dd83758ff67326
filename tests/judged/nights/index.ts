import type { JudgedNight } from '../judged-night.ts'
import { night01 } from './01-autumn-school.ts'
import { night02 } from './02-dark-autumn.ts'
import { night03 } from './03-summer-town.ts'
import { night04 } from './04-northern-summer.ts'
import { night05 } from './05-southern-town.ts'
import { night06 } from './06-southern-dark.ts'
import { night07 } from './07-one-telescope.ts'
import { night08 } from './08-class.ts'
import { night09 } from './09-large-row.ts'
import { night10 } from './10-full-moon.ts'
import { night11 } from './11-dark-winter.ts'
import { night12 } from './12-southern-winter.ts'

export const JUDGED_NIGHTS: readonly JudgedNight[] = [
  night01,
  night02,
  night03,
  night04,
  night05,
  night06,
  night07,
  night08,
  night09,
  night10,
  night11,
  night12,
]
