import { existsSync } from 'node:fs';
import { mkdtemp, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { inject } from 'vitest';

/**
 * A folder that takes long to fill: filled by the first test file that asks, and the same one for all
 * that ask later in this run. Nobody may write into it. Two files that ask at once both fill one, and
 * the first to be ready counts; whatever is filled in must be the same every time.
 */
export const once = async (
  name: string,
  fill: (folder: string) => Promise<void>,
): Promise<string> => {
  const place = join(inject('common'), name);
  if (existsSync(place)) return place;
  const folder = await mkdtemp(`${place}-`);
  await fill(folder);
  await rename(folder, place).catch((error: unknown) => {
    if (!existsSync(place)) throw error;
  });
  return place;
};
