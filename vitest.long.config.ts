import { defineConfig } from 'vitest/config'
import { PROMISES } from './tests/support/fault-table.ts'

export default defineConfig({
  test: {
    // A promise whose whole figure takes seconds has its test among the short ones.
    include: ['tests/long/**/*.test.ts', ...PROMISES.flatMap(({ files }) => files.map((file) => `tests/${file}`))],
    maxWorkers: 1,
    testTimeout: 3_600_000,
  },
})
