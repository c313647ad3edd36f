import { keyName } from '../../terms/key.ts';
import { free, rangeText } from '../zone-name.ts';
import { shown } from './cell-text.ts';
import type { Faults } from './faults.ts';
import type { RowDraft } from './row-draft.ts';
import type { ZoneDraft } from './zone-draft.ts';

/**
 * Names zones so that they stay the same when rows move: the `key` of their row, numbered where it has
 * several (`leg/1`, `leg/2`), or what they are (`legato C2-C4 v1-40`, key 60 as C4). The second zone of
 * one description is ` (2)`.
 *
 * Faults: `table-key-twice`.
 */
export const nameZones = (
  rows: readonly RowDraft[],
  zones: readonly (readonly ZoneDraft[])[],
  faults: Faults,
): readonly (readonly string[])[] => {
  const given = rows.map(givenNames);
  const lines = new Map<string, number>();
  rows.forEach(({ key, keyAt, line }, i) => {
    if (key === null) return;
    const names = new Set([key, ...given[i]!]);
    const twice = [...names].find((name) => lines.has(name));
    if (twice !== undefined) {
      faults.add('table-key-twice', { key: shown(twice), line: lines.get(twice)! }, keyAt);
    }
    for (const name of names) lines.set(name, line);
  });

  const taken = new Set(lines.keys());
  const repeats = new Map<string, number>();
  return zones.map((own, i) => {
    const row = rows[i]!;
    return row.key === null
      ? own.map((zone) => free(describe(row, zone), taken, repeats))
      : given[i]!;
  });
};

const givenNames = ({ key, zones }: RowDraft): readonly string[] => {
  if (key === null) return [];
  return zones === 1 ? [key] : Array.from({ length: zones }, (_, i) => `${key}/${String(i + 1)}`);
};

const describe = (row: RowDraft, zone: ZoneDraft): string => {
  const { keys, velocities, controllers, take, microphone } = zone;
  const parts = [
    row.articulation,
    rangeText(keys, keyName),
    velocities[0] === 1 && velocities[1] === 127 ? null : `v${rangeText(velocities)}`,
    ...controllers.map(({ number, range }) => `cc${String(number)} ${rangeText(range)}`),
    take === null ? null : `rr${String(take)}`,
    microphone,
    row.event === 'note-on' ? null : row.event,
  ];
  return parts.filter((part) => part !== null).join(' ');
};
