import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runKeepset } from './built-program.ts';

/** @returns a folder with the demo; the caller removes it */
export const makeDemo = async (): Promise<string> => {
  const folder = mkdtempSync(join(tmpdir(), 'keepset-demo-'));
  await runKeepset(['demo', '--out', folder, '--quiet']);
  return folder;
};
