import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nearest } from '../../src/notation/nearest.ts';

const columns = ['track', 'articulation', 'velocities', 'controllers', 'round-robin', 'keys'];

test.each([
  ['articulation', 'articulation'],
  ['Articulation ', 'articulation'],
  ['artículation', 'articulation'],
  ['artciulation', 'articulation'],
  ['aticulation', 'articulation'],
  ['articulationn', 'articulation'],
  ['articulatoins', 'articulation'],
  ['controler', 'controllers'],
  ['round robin', 'round-robin'],
  ['tarck', 'track'],
  ['key', 'keys'],
  // One edit for a word of up to five letters, two from six on.
  ['trakc', 'track'],
  ['rtakc', null],
  ['velocity', null],
  ['panorama', null],
  ['', null],
  [' ', null],
])('%j is most likely %j', (word, meant) => {
  expect(nearest(word, columns)).toBe(meant);
});

// Worked by hand: edits of each kind, and a swap counts as one.
test.each([
  ['legatoo', 'legato'],
  ['legao', 'legato'],
  ['legado', 'legato'],
  ['lgeato', 'legato'],
  ['elgaot', 'legato'],
])('%j is within its edits of %j', (word, candidate) => {
  expect(nearest(word, [candidate])).toBe(candidate);
});

test.each([
  // three letters: one edit
  ['leg', 'legat'],
  // five letters: one edit; two swaps are two
  ['elgta', 'legat'],
  // six letters: two edits
  ['legato', 'staccato'],
  ['abcdef', 'abcxyz'],
])('%j is too far from %j', (word, candidate) => {
  expect(nearest(word, [candidate])).toBeNull();
});

test('the nearer of two wins, the first of equals, and the candidate comes back as it is', () => {
  expect(nearest('sustian', ['Sustein', 'Sustain'])).toBe('Sustain');
  expect(nearest('vln 3', ['Vln 1', 'Vln 2'])).toBe('Vln 1');
  expect(nearest('vln 3', ['Vln 2', 'Vln 1'])).toBe('Vln 2');
  expect(nearest('vln 3', new Set(['Vln 1', 'VLN 3']))).toBe('VLN 3');
  expect(nearest('a', ['', ' ', 'b'])).toBe('b');
  expect(nearest('', ['a'])).toBeNull();
});

test('a slip in a long word is found, and an unlike candidate is not offered', () => {
  const word = fc.string({ unit: fc.constantFrom(...'abcdefgh'), minLength: 6, maxLength: 40 });
  fc.assert(
    fc.property(word, fc.nat(), (meant, seed) => {
      const at = seed % (meant.length - 1);
      const swapped =
        meant.slice(0, at) + meant.charAt(at + 1) + meant.charAt(at) + meant.slice(at + 2);
      const leftOut = meant.slice(0, at) + meant.slice(at + 1);
      const replaced = `${meant.slice(0, at)}z${meant.slice(at + 1)}`;
      for (const slip of [meant, swapped, leftOut, replaced]) {
        expect(nearest(slip, [meant])).toBe(meant);
      }
      expect(nearest('z'.repeat(meant.length), [meant])).toBeNull();
    }),
  );
});

test('only the first 64 letters count, so a long word is no trouble', () => {
  const long = 'a'.repeat(64);
  expect(nearest(`${long}${'x'.repeat(1_000_000)}`, [`${long}${'y'.repeat(1_000_000)}`])).toBe(
    `${long}${'y'.repeat(1_000_000)}`,
  );
  expect(nearest(`x${'a'.repeat(62)}bbb`, ['a'.repeat(64)])).toBe('a'.repeat(64));
});
