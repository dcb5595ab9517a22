// Where the TypeScript tests live and how they run.
import { defineConfig } from 'vitest/config'

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    environment: 'node',
    passWithNoTests: false,
    testTimeout: 30_000,
  },
})
