import { expect, test } from 'vitest';
import {
  percussionChannel as channel,
  percussionKeys,
  programNames,
} from '../../reference/general-midi-1.ts';
import { percussionChannel, percussionName, programName } from '../../src/terms/general-midi.ts';

// The check values are reference/general-midi-1.ts: RP-003, the sound set and the percussion map.

test('programs bear the names of the standard', () => {
  expect(programNames).toHaveLength(128);
  expect(programNames.map((_, program) => programName(program))).toEqual(programNames);
});

test('percussion keys bear the names of the standard', () => {
  expect(percussionKeys).toHaveLength(47);
  expect(percussionKeys.map(({ key }) => ({ key, name: percussionName(key) }))).toEqual(
    percussionKeys,
  );
});

test('percussion is on the channel of the standard', () => {
  expect(percussionChannel).toBe(channel);
});

test.each([-1, 128, 1.5])('program %d has no name', (program) => {
  expect(programName(program)).toBeNull();
});

test.each([0, 34, 82, 127])('key %d has no percussion name', (key) => {
  expect(percussionName(key)).toBeNull();
});
