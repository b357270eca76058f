import { defineConfig } from 'vitest/config';

/** Three projects: the fast ones beside the code, the outside references, and the whole product end to end. */
export default defineConfig({
  test: {
    reporters: ['default'],
    projects: [
      {
        test: {
          name: 'unit',
          include: ['{src,web,demo}/**/*.test.{ts,tsx}'],
          environment: 'node',
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: 'reference',
          include: ['reference/**/*.test.ts'],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'whole',
          include: ['test/**/*.test.{ts,tsx}'],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          // A browser on a busy machine answers late, not otherwise.
          expect: { poll: { timeout: 10_000 } },
        },
      },
    ],
  },
});
