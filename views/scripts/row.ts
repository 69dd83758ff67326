// A page of the field that is only read; what was tapped on another page of this phone goes on its way from here too.
import { runPage } from './taps.ts'

const PACE_MS = 2_000

runPage(PACE_MS)
