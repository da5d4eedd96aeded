import { defineConfig } from 'vitest/config';

// Checks by programs of others: Debian's python3-ezdxf, python3-opencv, qpdf, poppler-utils and chromium
// must be installed.
export default defineConfig({
  test: {
    include: ['test/outside/**/*.test.ts'],
    maxWorkers: 2,
    testTimeout: 60_000,
  },
});
