import { expect, test } from 'vitest';
import { newestOnly } from '../../src/midi/cue-versions.ts';

const cue = (number: string, version: number | null, path = '') => ({
  cue: version === null ? number : `${number} v${String(version)}`,
  version,
  path,
});

test('of each cue the newest version, all of its files, in their order', () => {
  const all = [
    cue('1m1', null),
    cue('1m2', 3),
    cue('1m2', 10, 'strings'),
    cue('1m2', null),
    cue('1m2', 10, 'brass'),
    cue('1m2A', 1),
    cue('2m1', 2),
  ];
  const { newest, left } = newestOnly(all);
  expect(newest).toEqual([all[0], all[2], all[4], all[5], all[6]]);
  // No version is older than any; 10 is newer than 3.
  expect(left).toEqual([{ cue: '1m2', newest: '1m2 v10', older: ['1m2', '1m2 v3'] }]);
});

test('nothing is left aside where there is nothing to choose', () => {
  const all = [cue('1m1', null), cue('1m1', null, 'other'), cue('1m2', 4)];
  expect(newestOnly(all)).toEqual({ newest: all, left: [] });
});

test('version 0 is newer than none', () => {
  expect(newestOnly([cue('1m1', 0), cue('1m1', null)]).newest).toEqual([cue('1m1', 0)]);
});
