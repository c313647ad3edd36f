import { defineConfig } from 'vitest/config';

/** A report as JSON beside the usual one, for `.ci/run` to count from. */
const report = process.env['KEEPSET_TEST_REPORT'];

/**
 * Folders whose tests read and change nothing outside their own values: files share a worker and its
 * modules, which saves a second of loading for each. Whoever mocks, spies, spawns, measures or changes
 * the working folder stays out.
 */
const pure = [
  ...['draft', 'formats', 'instruments', 'jobs', 'keep', 'midi', 'notation', 'oracle', 'overview'],
  ...['primer', 'reference', 'report', 'template', 'terms'],
].map((folder) => `tests/${folder}/**/*.test.ts`);

const all = ['tests/**/*.test.ts'];

export default defineConfig({
  test: {
    projects: [
      { extends: true, test: { name: 'pure', include: pure, isolate: false } },
      {
        extends: true,
        test: { name: 'apart', include: all, exclude: ['tests/prove/**', ...pure] },
      },
    ],
    // One fewer is usual, which on two cores is one.
    maxWorkers: '100%',
    // Only what hangs is stopped: a busy machine takes many times as long, and is no failure.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
    globalSetup: ['tests/global-setup.ts'],
    // Built code is loaded as it is, as a user's Node loads it.
    server: { deps: { external: [/\/dist\//, /\/\.cache\//] } },
    ...(report === undefined || report === ''
      ? {}
      : { reporters: ['default', 'json'], outputFile: { json: report } }),
  },
});
