import { readFileSync } from 'node:fs';

/** The package's own version, from its package.json. */
export const version = (): string => {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { readonly version: string }).version;
};
