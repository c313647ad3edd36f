import { expect, test } from 'vitest';
import { parseSwitch } from '../../src/notation/switch.ts';

// Programs and controllers 0 to 127, channels 0 to 15 that people write as 1 to 16: MIDI 1.0,
// Detailed Specification. Keys: see key.test.ts.

test.each([
  ['C0', { kind: 'key', key: 12 }],
  ['24', { kind: 'key', key: 24 }],
  ['c♯-1', { kind: 'key', key: 1 }],
  ['C#4\u00a0', { kind: 'key', key: 61 }],
  ['program 5', { kind: 'program', range: [5, 5] }],
  ['Program 5-9', { kind: 'program', range: [5, 9] }],
  ['program 5 – 9', { kind: 'program', range: [5, 9] }],
  ['program\u00a00', { kind: 'program', range: [0, 0] }],
  ['program5', { kind: 'program', range: [5, 5] }],
  ['cc 32: 0-20', { kind: 'controller', number: 32, range: [0, 20] }],
  ['cc32:5', { kind: 'controller', number: 32, range: [5, 5] }],
  ['CC32 : 0..20', { kind: 'controller', number: 32, range: [0, 20] }],
  ['channel 3', { kind: 'channel', channel: 2 }],
  ['Channel 1', { kind: 'channel', channel: 0 }],
  ['channel\u00a016', { kind: 'channel', channel: 15 }],
])('%j', (text, expected) => {
  expect(parseSwitch(text, 4)).toEqual(expected);
});

test('a key follows middle C', () => {
  expect(parseSwitch('C0', 3)).toEqual({ kind: 'key', key: 24 });
  expect(parseSwitch('24', 3)).toEqual({ kind: 'key', key: 24 });
});

test.each([
  '',
  'program',
  'program 128',
  'program 9-5',
  'program C0',
  'program 5 6',
  'cc',
  'cc 32',
  'cc 128: 0',
  'cc 32: 0-128',
  'cc 32: 0 & cc 1: 5',
  '32:5',
  'channel',
  'channel 0',
  'channel 17',
  'channel 1-2',
  'channel -1',
  'C0-C1',
  '128',
  'legato',
])('%j is no switch', (text) => {
  expect(parseSwitch(text, 4)).toBeNull();
});
