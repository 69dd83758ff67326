import { getHeapStatistics, setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

/** About what a start leaves behind; laying out the catalogue leaves twice as much. */
const USUAL_HEAP_BYTES = 100 * 1024 * 1024
const AFTER_START_MS = 1_000

/**
 * Keeps the service small from here on, since a field laptop has other things to hold: V8 sweeps up early instead of
 * letting the heap grow with what it finds free. It is for after the start, which it would slow by a fifth. How far the
 * heap may grow is reckoned at each great sweep, so the first is not left to chance.
 */
export function stayLean(): void {
  setFlagsFromString('--optimize-for-size')
  if (getHeapStatistics().total_heap_size > USUAL_HEAP_BYTES) sweep()
  else setTimeout(sweep, AFTER_START_MS).unref()
}

/** Twice, since what lies outside the heap (statements, buffers) is let go of by the first and given back by the second. */
function sweep(): void {
  setFlagsFromString('--expose-gc')
  const collect: unknown = runInNewContext('gc')
  if (typeof collect !== 'function') return
  collect()
  collect()
}
