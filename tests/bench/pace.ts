import { createHash } from 'node:crypto'

const ROUNDS = 15
const BYTES = 4 * 1024 * 1024

/** How fast the machine is at this moment, told by a work that is always the same: times are compared with this beside them. */
export function paceOfMachine(): string {
  const work = Buffer.alloc(BYTES, 7)
  const tookMs = Array.from({ length: ROUNDS }, () => {
    const begunMs = performance.now()
    createHash('sha256').update(work).digest()
    return performance.now() - begunMs
  })
  const [median = Number.NaN] = tookMs.sort((a, b) => a - b).slice(Math.floor(ROUNDS / 2))
  return `the machine's pace: a checksum (SHA-256) of 4 MiB takes ${median.toFixed(1)} ms at this moment`
}
