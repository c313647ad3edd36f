import { isMap, parseDocument, type YAMLMap } from 'yaml';
import type { Belonging } from './write-instrument.ts';

const mapAt = (keys: YAMLMap, key: string): YAMLMap | null => {
  const found = keys.get(key);
  return isMap(found) ? found : null;
};

/** The first of several, unless `defaults` chooses. */
const first = (keys: YAMLMap, declared: string, byDefault: string): string | null => {
  const all = mapAt(keys, declared)?.items ?? [];
  if (all.length < 2 || mapAt(keys, 'defaults')?.has(byDefault) === true) return null;
  return String(all[0]!.key);
};

/**
 * What a new instrument has to say of its machine and its player, so that the template can be read:
 * nothing where there is one of them or a default, else the first one, to be corrected.
 *
 * @param text a template that can be read
 */
export const belongingIn = (text: string): Belonging => {
  const { contents } = parseDocument(text, { uniqueKeys: false });
  return isMap(contents)
    ? {
        machine: first(contents, 'machines', 'machine'),
        player: first(contents, 'players', 'player'),
      }
    : { machine: null, player: null };
};
