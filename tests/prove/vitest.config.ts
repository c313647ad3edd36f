import { defineConfig } from 'vitest/config';

/** A report as JSON beside the usual one, to count what was proved. */
const report = process.env['KEEPSET_PROVE_REPORT'];

/**
 * Proofs against synthesisers that are not ours: slow, so apart from `npm test`. `KEEPSET_PROVE=part`
 * takes a seeded share of them, `KEEPSET_PROVE_SEED` another share.
 */
export default defineConfig({
  test: {
    include: ['tests/prove/**/*.prove.ts'],
    testTimeout: 15 * 60_000,
    hookTimeout: 5 * 60_000,
    maxWorkers: 2,
    ...(report === undefined || report === ''
      ? {}
      : { reporters: ['default', 'json'], outputFile: { json: report } }),
  },
});
