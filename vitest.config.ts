import { defineConfig } from 'vitest/config';

/** A report as JSON beside the usual one, for `.ci/run` to count from. */
const report = process.env['KEEPSET_TEST_REPORT'];

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/prove/**'],
    testTimeout: 60_000,
    // Built code is loaded as it is, as a user's Node loads it.
    server: { deps: { external: [/\/dist\//, /\/\.cache\//] } },
    ...(report === undefined || report === ''
      ? {}
      : { reporters: ['default', 'json'], outputFile: { json: report } }),
  },
});
