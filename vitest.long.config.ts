import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/long/**/*.test.ts'],
    maxWorkers: 1,
    testTimeout: 3_600_000,
  },
})
