import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/outside/**', 'node_modules/**'],
    // Geometry tests are CPU-bound: more workers than cores only adds start-up time.
    maxWorkers: 2,
    // Only what hangs: no test fails for being slow on a busy machine.
    testTimeout: 300_000,
    hookTimeout: 300_000,
  },
});
