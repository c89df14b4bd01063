import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

/** What starts a server process or a browser: two files at a time, since each waits much and starves easily. */
const SLOW = [
  'tests/browser/**/*.test.ts',
  'tests/e2e/**/*.test.ts',
  'tests/faults/**/*.test.ts',
  'tests/stations/browser/**/*.test.ts',
  'tests/stations/e2e/**/*.test.ts',
  'tests/**/*.slow.test.ts',
  'tests/walk.test.ts',
  'tests/demo.test.ts',
];

export default defineConfig({
  plugins: [svelte()],
  test: {
    // Limits against a test that hangs, on a machine that is busy; nothing is said about how fast anything is.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    globalSetup: ['tests/helpers/built.ts'],
    // Random cases are pinned; FIBULA_SEED asks for others.
    setupFiles: ['tests/helpers/seed.ts'],
    projects: [
      {
        extends: true,
        test: {
          name: 'fast',
          include: ['tests/**/*.test.ts'],
          exclude: SLOW,
          // Many of them wait for a server in their own process more than they work.
          maxWorkers: 3,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'slow',
          include: SLOW,
          maxWorkers: 2,
          // A real browser on a busy machine is late now and then; a second failure is a failure.
          retry: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
