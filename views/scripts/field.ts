// A page of the field on which things are tapped.
import { runPage } from './taps.ts'

const PACE_MS = 800

runPage(PACE_MS)
