import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'tests/bench/**', 'tests/long/**', 'node_modules/**'],
    setupFiles: ['tests/support/property-runs.ts'],
    maxWorkers: 2,
    isolate: false, // no module keeps a state of its own, and reading them anew for each file doubled the time
    testTimeout: 120_000, // on a machine that does something else as well, some take four times as long
  },
})
