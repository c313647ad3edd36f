import type { Fates } from './fates.ts';
import type { WrittenDefault } from './offsets.ts';
import { wholeText } from './stub-list.ts';
import type { Stub } from './stub.ts';

/**
 * What `sw_default` says is lost with the regions it stands in. The last one counts, or the last among
 * the keys of a range: so from the first on that no longer stands where it did, all are said again.
 */
export const lostDefaults = (
  defaults: readonly WrittenDefault[],
  ofHeader: Fates['ofHeader'],
): readonly Stub[] => {
  const before = lastOnes(defaults);
  const after = lastOnes(defaults.filter(({ header }) => ofHeader[header] !== 'goes'));
  const places = new Map([...after.keys()].map((key, place) => [key, place]));
  const all = [...before.entries()];
  let last = -1;
  const lost = all.findIndex(([key]) => {
    const place = places.get(key) ?? -1;
    if (place <= last) return true;
    last = place;
    return false;
  });
  const again = lost < 0 ? [] : all.slice(lost);
  return again.map(([, { key, offsets }]) => ({
    opcodes: [['sw_default', wholeText(key)]],
    offsets,
  }));
};

/** Of those that say the same the last, in their order. */
const lastOnes = (defaults: readonly WrittenDefault[]): ReadonlyMap<string, WrittenDefault> => {
  const last = new Map<string, WrittenDefault>();
  for (const one of defaults) {
    const { noteOffset, switchOffset } = one.offsets;
    const key = [one.key, noteOffset, switchOffset].join();
    last.delete(key);
    last.set(key, one);
  }
  return last;
};
