import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/**
 * True when a file, folder or command from outside npm is on this machine. Without it the caller
 * skips, and the reason is printed; with `KEEPSET_REQUIRE_TOOLS=1` its absence is a failure.
 *
 * @param what an absolute path, or the name of a command
 * @param debianPackage the package of Debian that holds it
 */
export const needs = (what: string, debianPackage: string): boolean => {
  const places = what.startsWith('/')
    ? [what]
    : (process.env['PATH'] ?? '').split(delimiter).map((folder) => join(folder, what));
  if (places.some((place) => existsSync(place))) return true;
  const reason = `${what} is not here (Debian package ${debianPackage})`;
  if (process.env['KEEPSET_REQUIRE_TOOLS'] === '1') throw new Error(reason);
  console.log(`skipped: ${reason}`);
  return false;
};
