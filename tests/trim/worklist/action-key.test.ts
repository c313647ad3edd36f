import fc from 'fast-check';
import { expect, test } from 'vitest';
import { toRanges } from '../../../src/terms/range.ts';
import {
  areContrary,
  parseActionKey,
  writeActionKey,
  type ActionKey,
} from '../../../src/trim/worklist/action-key.ts';

const key = (change: Partial<ActionKey>): ActionKey => ({
  ...{ does: 'unload', instrument: 'horns', copy: null, spare: 0, part: ['sustain'] },
  zones: [
    [0, 11],
    [24, 30],
  ],
  fingerprint: '1a2b3c4d',
  ...change,
});

/** The first two are the design's own examples, with the fingerprint behind them. */
test.each([
  [key({}), 'unload horns/sustain: 0-11,24-30 #1a2b3c4d'],
  [key({ copy: 'Hn 1' }), 'unload horns@Hn 1/sustain: 0-11,24-30 #1a2b3c4d'],
  [key({ does: 'load', part: [], zones: [[7, 7]] }), 'load horns: 7 #1a2b3c4d'],
  [key({ spare: 2, part: [] }), 'unload horns@-2: 0-11,24-30 #1a2b3c4d'],
  [key({ copy: '-', part: [] }), 'unload horns@%2D: 0-11,24-30 #1a2b3c4d'],
  [key({ part: ['a/b: c@d, 5%'] }), 'unload horns/a%2Fb%3A c%40d%2C 5%25: 0-11,24-30 #1a2b3c4d'],
  [
    key({ part: ['Größe\u202e', ' x '] }),
    'unload horns/Größe%{202E}/%20x%20: 0-11,24-30 #1a2b3c4d',
  ],
])('%j is written %s, and read again', (meant, text) => {
  expect(writeActionKey(meant)).toBe(text);
  expect(parseActionKey(text)).toEqual(meant);
});

test.each([
  '',
  'unload',
  'unload horns',
  'unload horns:',
  'unload horns:  #1a2b3c4d',
  'drop horns: 1 #1a2b3c4d',
  'unload horns: 5-3 #1a2b3c4d',
  'unload horns: 1,1 #1a2b3c4d',
  'unload horns: 3,1 #1a2b3c4d',
  'unload horns: -1 #1a2b3c4d',
  'unload horns: 1-2-3 #1a2b3c4d',
  'unload horns: 1, #1a2b3c4d',
  'unload horns: 9999999999999999 #1a2b3c4d',
  'unload horns%: 1 #1a2b3c4d',
  'unload horns%2: 1 #1a2b3c4d',
  'unload horns%{110000}: 1 #1a2b3c4d',
  'unload a@b@c: 1 #1a2b3c4d',
  'unload : 1 #1a2b3c4d',
  'unload horns: 1',
  'unload horns: 1 #1a2b3c4',
  'unload horns: 1 #1A2B3C4D',
  'unload horns: 1 #1a2b3c4d5',
  'unload horns: 1 1a2b3c4d',
])('%j is no key', (text) => {
  expect(parseActionKey(text)).toBeNull();
});

test('any names come back, in one line without controls', () => {
  const name = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 8 }),
    fc.string({ unit: fc.constantFrom(...'%/:@,-{} \n\u202eaé😀'), maxLength: 8 }),
  );
  fc.assert(
    fc.property(
      fc.record({
        does: fc.constantFrom<'load' | 'unload'>('load', 'unload'),
        instrument: name.filter((text) => text !== ''),
        copy: fc.option(name),
        part: fc.array(name, { maxLength: 3 }),
        zones: fc
          .uniqueArray(fc.nat(60), { minLength: 1 })
          .map((ids): ActionKey['zones'] => toRanges(ids)),
      }),
      (drawn) => {
        const meant: ActionKey = { ...drawn, spare: 0, fingerprint: '00000000' };
        const text = writeActionKey(meant);
        expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
        expect(parseActionKey(text)).toEqual(meant);
      },
    ),
  );
});

test('contrary is what undoes some of the same', () => {
  const load = (change: Partial<ActionKey>): ActionKey => key({ does: 'load', ...change });
  expect(areContrary(key({}), load({ zones: [[11, 20]] }))).toBe(true);
  expect(areContrary(key({}), load({ zones: [[12, 23]] }))).toBe(false);
  expect(areContrary(key({}), key({}))).toBe(false);
  expect(areContrary(key({}), load({ instrument: 'oboe' }))).toBe(false);
  expect(areContrary(key({}), load({ fingerprint: '00000000' }))).toBe(false);
  expect(areContrary(key({ copy: 'Hn 1' }), load({ copy: 'Hn 2' }))).toBe(false);
  expect(areContrary(key({ copy: 'Hn 1' }), load({}))).toBe(true);
  expect(areContrary(key({ spare: 2 }), load({}))).toBe(false);
});
