import { expect, test } from 'vitest';
import { changeWords, playersOf } from '../../../src/report/said/who-plays.ts';

const copy = (name: string, articulation: string | null = null, notes = 1) => ({
  ...{ name, articulation, notes },
  zonesKept: 1,
});

test('copies are told by their tracks, and what a route holds them to', () => {
  const copies = [
    copy('Fl 1 as sustain', 'sustain'),
    copy('Fl 2'),
    copy('Fl 3', null, 0),
    copy('Vc as long', 'long'),
    copy('Vc as short', 'short'),
    copy('Bells as shorter as short printed', 'short'),
  ];
  expect(playersOf({ copies })).toEqual([
    'Fl 1 for sustain only',
    'Fl 2',
    'Vc for long and short only',
    'Bells as shorter for short only',
  ]);
});

test.each([
  [-12, 1, [], 'write an octave higher than is named here'],
  [24, 1, [], 'write 2 octaves lower than is named here'],
  [-1, 1, [], 'write 1 semitone higher than is named here'],
  [0, 0.8, [[11, 1]], 'velocities arrive multiplied by 0.8; CC11 arrives as CC1'],
] as const)('%i, %d, %j: %s', (transpose, velocity, controllers, words) => {
  expect(changeWords({ rules: ['track "Vc"'], transpose, velocity, controllers })).toBe(words);
});
