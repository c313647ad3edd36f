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
  ...{ does: 'unload', instrument: 'horns', copy: null, isSpare: false, part: ['sustain'] },
  zones: [
    [0, 11],
    [24, 30],
  ],
  ...change,
});

/** The first two are the design's own examples. */
test.each([
  [key({}), 'unload horns/sustain: 0-11,24-30'],
  [key({ copy: 'Hn 1' }), 'unload horns@Hn 1/sustain: 0-11,24-30'],
  [key({ does: 'load', part: [], zones: [[7, 7]] }), 'load horns: 7'],
  [key({ isSpare: true, part: [] }), 'unload horns@-: 0-11,24-30'],
  [key({ copy: '-', part: [] }), 'unload horns@%2D: 0-11,24-30'],
  [key({ part: ['a/b: c@d, 5%'] }), 'unload horns/a%2Fb%3A c%40d%2C 5%25: 0-11,24-30'],
  [key({ part: ['Größe\u202e', ' x '] }), 'unload horns/Größe%{202E}/%20x%20: 0-11,24-30'],
])('%j is written %s, and read again', (meant, text) => {
  expect(writeActionKey(meant)).toBe(text);
  expect(parseActionKey(text)).toEqual(meant);
});

test.each([
  '',
  'unload',
  'unload horns',
  'unload horns:',
  'unload horns: ',
  'drop horns: 1',
  'unload horns: 5-3',
  'unload horns: 1,1',
  'unload horns: 3,1',
  'unload horns: -1',
  'unload horns: 1-2-3',
  'unload horns: 1,',
  'unload horns: 9999999999999999',
  'unload horns%: 1',
  'unload horns%2: 1',
  'unload horns%{110000}: 1',
  'unload a@b@c: 1',
  'unload : 1',
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
        const meant: ActionKey = { ...drawn, isSpare: false };
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
  expect(areContrary(key({ copy: 'Hn 1' }), load({ copy: 'Hn 2' }))).toBe(false);
  expect(areContrary(key({ copy: 'Hn 1' }), load({}))).toBe(true);
  expect(areContrary(key({ isSpare: true }), load({}))).toBe(false);
});
