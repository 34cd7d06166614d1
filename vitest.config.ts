import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['packages/*/test/**/*.test.ts', 'packages/*/checks/**/*.test.ts'],
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 120_000,
  },
})
