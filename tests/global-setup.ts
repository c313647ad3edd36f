import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** A folder that all test files of one run have in common, see `once.ts`. */
    readonly common: string;
  }
}

/** Makes the common folder before the first test file, and removes it after the last one. */
export default ({ provide }: TestProject): (() => void) => {
  const common = mkdtempSync(join(tmpdir(), 'keepset-tests-'));
  provide('common', common);
  return () => rmSync(common, { recursive: true, force: true });
};
