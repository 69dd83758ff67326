import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs'
import { join } from 'node:path'

const BLOCK = Buffer.alloc(4096, 7)

/**
 * The yardstick of everything that must be on the disk before it is told: a plain file in the same folder, 4 KiB
 * appended and `fdatasync` called, over and over. Answers how many a second.
 */
export function syncsPerSecond(folder: string, ms: number): number {
  const file = openSync(join(folder, 'yardstick'), 'a')
  const beganMs = performance.now()
  let count = 0
  try {
    while (performance.now() - beganMs < ms) {
      writeSync(file, BLOCK)
      fdatasyncSync(file)
      count++
    }
    return (count * 1000) / (performance.now() - beganMs)
  } finally {
    closeSync(file)
  }
}
