import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/bench/**'],
    testTimeout: 60_000,
    // No test, and so no command, may reach a network.
    setupFiles: ['tests/support/no-network.cjs'],
    pool: 'threads',
  },
});
