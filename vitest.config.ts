import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'tests/bench/**', 'node_modules/**'],
    setupFiles: ['tests/support/property-runs.ts'],
    maxWorkers: 2,
    testTimeout: 30_000,
  },
})
