import { getHeapStatistics, setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

/** So much the service needs at rest, and room beside it; laying out the catalogue leaves twice as much behind. */
const USUAL_HEAP_BYTES = 100 * 1024 * 1024

/**
 * Keeps the service small from here on, since a field laptop has other things to hold: V8 sweeps up early instead of
 * letting the heap grow with what it finds free, and what the start has left behind is given back. It is for after the
 * start, which it would slow by a fifth.
 */
export function stayLean(): void {
  setFlagsFromString('--optimize-for-size')
  if (getHeapStatistics().total_heap_size < USUAL_HEAP_BYTES) return
  setFlagsFromString('--expose-gc')
  const collect: unknown = runInNewContext('gc')
  if (typeof collect === 'function') collect()
}
