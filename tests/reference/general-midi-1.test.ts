import { expect, it, test } from 'vitest';
import {
  percussionChannel,
  percussionKeys,
  programFamilies,
  programNames,
} from '../../reference/general-midi-1.ts';

it('there are sixteen families of eight, 128 programs in all', () => {
  expect(programFamilies.map((family) => family.programs.length)).toEqual(Array(16).fill(8));
  expect(programNames).toHaveLength(128);
});

it('no two programs, families or drums share a name, whatever the capitals', () => {
  for (const names of [
    programNames,
    programFamilies.map((family) => family.name),
    percussionKeys.map((drum) => drum.name),
  ]) {
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
  }
});

it('names have no stray blanks', () => {
  for (const name of [...programNames, ...percussionKeys.map((drum) => drum.name)]) {
    expect(name).toMatch(/^\S+( \S+)*$/);
  }
});

// Programs 5, 46 and 70: comments on the example file of RP-001 in its 1999 edition as "SMF 1.1". The
// first and the last: from memory.
test.each([
  [0, 'Acoustic Grand Piano'],
  [5, 'Electric Piano 2'],
  [46, 'Orchestral Harp'],
  [70, 'Bassoon'],
  [127, 'Gunshot'],
])('program %i is %s', (program, name) => {
  expect(programNames[program]).toBe(name);
});

it('numbered names count up within their family', () => {
  for (const [family, word] of [
    ['Synth Lead', 'Lead'],
    ['Synth Pad', 'Pad'],
    ['Synth Effects', 'FX'],
  ] as const) {
    const programs = programFamilies.find((row) => row.name === family)?.programs ?? [];
    expect(programs.map((name) => name.replace(/ \(.*\)$/, ''))).toEqual(
      [1, 2, 3, 4, 5, 6, 7, 8].map((number) => `${word} ${number}`),
    );
  }
});

it('the percussion map has every key from 35 to 81 once, ascending', () => {
  expect(percussionKeys.map((drum) => drum.key)).toEqual(
    Array.from({ length: 47 }, (_, n) => n + 35),
  );
  expect(percussionChannel).toBe(10);
});

// Keys 59 and 60: the running text of a public tutorial on General MIDI (academictutorials.com, "MIDI:
// the General MIDI system"). The others: from memory.
test.each([
  [36, 'Bass Drum 1'],
  [38, 'Acoustic Snare'],
  [59, 'Ride Cymbal 2'],
  [60, 'Hi Bongo'],
  [81, 'Open Triangle'],
])('key %i is %s', (key, name) => {
  expect(percussionKeys.find((drum) => drum.key === key)?.name).toBe(name);
});
