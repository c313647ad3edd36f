/** Where files come to lie in the output: never outside it, and never one over another (the design, section 11). */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/terms/errors.ts';
import type { Definition } from '../../src/trim/definitions.ts';
import type { OutputFile } from '../../src/trim/output-file.ts';
import { placeAll } from '../../src/trim/place.ts';
import type { Trimmed } from '../../src/trim/trimmed.ts';

const none: ReadonlySet<number> = new Set();

const text = (path: string): OutputFile => ({
  path,
  pieces: [{ kind: 'bytes', bytes: new Uint8Array([1]) }],
});
const copy = (path: string): OutputFile => ({
  path,
  pieces: [{ kind: 'copy', path, start: 0, length: 4, size: 4 }],
});

const one = (
  id: string,
  ...files: readonly [OutputFile, ...OutputFile[]]
): readonly [Definition, Trimmed] => [
  {
    kind: 'sfz',
    path: files[0].path,
    instruments: [id],
    set: { loaded: none, silent: none, presetZones: none, programs: none },
  },
  { files, zones: new Map(), places: [], bytesBefore: 0, findings: [] },
];

const placesOf = (...all: readonly (readonly [Definition, Trimmed])[]) =>
  placeAll(all).map(({ files }) => files.map(({ path }) => path));

describe('a place for each definition', () => {
  test('what lies in the folder of the template stays where it was', () => {
    const strings = one('strings', text('inst/strings.sfz'), copy('samples/a.wav'));
    const bank = one('keys', text('banks/keys.sf2'));
    expect(placesOf(strings, bank)).toEqual([
      ['inst/strings.sfz', 'samples/a.wav'],
      ['banks/keys.sf2'],
    ]);
  });

  test('paths are as plain as they can be', () => {
    expect(placesOf(one('a', text('./x/../inst//a.sf2')))).toEqual([['inst/a.sf2']]);
  });

  test('instruments may use one sample', () => {
    const high = one('high', text('high.sfz'), copy('s/a.wav'));
    const low = one('low', text('low.sfz'), copy('s/a.wav'));
    expect(placesOf(high, low)).toEqual([
      ['high.sfz', 's/a.wav'],
      ['low.sfz', 's/a.wav'],
    ]);
  });

  test('two that would write one file differently get folders of their own', () => {
    const high = one('high', text('high.sfz'), text('map.sfz'), copy('s/a.wav'));
    const low = one('low', text('low.sfz'), text('map.sfz'), copy('s/b.wav'));
    const other = one('other', text('other.sfz'));
    expect(placesOf(high, low, other)).toEqual([
      ['high/high.sfz', 'high/map.sfz', 'high/s/a.wav'],
      ['low/low.sfz', 'low/map.sfz', 'low/s/b.wav'],
      ['other.sfz'],
    ]);
  });

  test('what lies outside comes along in a folder of its own', () => {
    const far = one('far', text('../lib/far.sfz'), copy('../lib/s/a.wav'), copy('../more/b.wav'));
    expect(placesOf(far)).toEqual([['far/lib/far.sfz', 'far/lib/s/a.wav', 'far/more/b.wav']]);
  });

  test('the folder of the template gets a name where files lie beside it', () => {
    const kit = one('kit', text('kit.sfz'), copy('../lib/a.wav'), copy('s/here/b.wav'));
    expect(placesOf(kit)).toEqual([
      ['kit/here-/kit.sfz', 'kit/lib/a.wav', 'kit/here-/s/here/b.wav'],
    ]);
  });

  test('a folder of its own takes no name that is there, in whatever capitals', () => {
    const plain = one('x', text('Far/a.sfz'));
    const far = one('far', text('../b.sfz'));
    expect(placesOf(plain, far)).toEqual([['Far/a.sfz'], ['far-2/b.sfz']]);
  });

  test.each([
    ['keys#0:48', 'keys-0-48'],
    ['../..', 'instrument'],
    ['Große Trommel', 'Große-Trommel'],
    ['\u202e\u0007', 'instrument'],
  ])('the id %s names the folder %s', (id, folder) => {
    expect(placesOf(one(id, text('../b.sfz')))).toEqual([[`${folder}/b.sfz`]]);
  });

  test.each([
    [['/lib/x/keys.sf2'], ['keys.sf2']],
    [['.hidden/keys.sf2'], ['keys.sf2']],
    [
      ['a/b/kit.sfz', 'a/s/1.wav'],
      ['b/kit.sfz', 's/1.wav'],
    ],
  ])('without a template %s is written as %s', (before, after) => {
    const [root, ...rest] = before;
    const placed = placeAll([one('x', text(root!), ...rest.map(copy))], false);
    expect(placed[0]!.files.map(({ path }) => path)).toEqual(after);
    expect(placed[0]!.path).toBe(after[0]);
  });

  test('an instrument on another disk than its samples has no place', () => {
    expect(() => placesOf(one('a', text('a.sfz'), copy('/lib/a.wav')))).toThrow(InputError);
    expect(() => placesOf(one('a', text('/lib/a.sfz'), copy('s/a.wav')))).toThrow(InputError);
  });

  test('an instrument that is named by its whole path has one', () => {
    expect(placesOf(one('a', text('/lib/x/a.sfz'), copy('/lib/s/a.wav')))).toEqual([
      ['a/x/a.sfz', 'a/s/a.wav'],
    ]);
  });

  test.each([
    ['s/A.wav', 's/a.wav'],
    ['s/\u00e9.wav', 's/e\u0301.wav'],
    ['S/a.wav', 's/b.wav'],
  ])('%s and %s would be one on some disks', (first, second) => {
    const place = () => placesOf(one('a', text('a.sfz'), copy(first), copy(second)));
    expect(place).toThrow(InputError);
    expect(place).toThrow('trim-names-collide');
  });
});

test('nothing ever lies outside, whatever the paths', () => {
  const part = fc.constantFrom('..', 'a', 'b', 'A', '.x', 'c d');
  const path = fc
    .array(part, { minLength: 0, maxLength: 5 })
    .map((parts) => [
      ...parts.filter((one) => one === '..'),
      ...parts.filter((one) => one !== '..'),
    ])
    .map((parts) => [...parts, 'file'].join('/'));
  const definition = fc.tuple(fc.string(), fc.array(path, { minLength: 1, maxLength: 4 }));
  fc.assert(
    fc.property(fc.array(definition, { minLength: 1, maxLength: 3 }), (all) => {
      const given = all.map(([id, [root, ...rest]]) =>
        one(id, text(root!), ...rest.filter((other) => mayBeAsked(root!, other)).map(copy)),
      );
      let placed: readonly (readonly string[])[];
      try {
        placed = placesOf(...given);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        return;
      }
      for (const written of placed.flat()) {
        expect(written.split('/')).not.toContain('..');
        expect(written).not.toMatch(/^\/|^$|\\|\0/u);
      }
      // What belongs together keeps its distances: relative paths in the text lead where they led.
      placed.forEach((files, i) => {
        const before = given[i]![1].files.map((file) => file.path);
        const base = files[0]!.split('/').slice(0, -1);
        const from = before[0]!.split('/').slice(0, -1);
        files.forEach((file, j) => {
          expect(relativeTo(base, file)).toBe(relativeTo(from, before[j]!));
        });
      });
    }),
  );
});

/** A file asks for no other by fewer steps upwards than it is away itself: it would have to name the folder. */
const mayBeAsked = (root: string, other: string): boolean =>
  other !== root &&
  (/^(?:\.\.\/)*/u.exec(other)?.[0] ?? '').startsWith(/^(?:\.\.\/)*/u.exec(root)?.[0] ?? '');

const relativeTo = (base: readonly string[], path: string): string => {
  const parts = path.split('/');
  let same = 0;
  while (same < base.length && base[same] === parts[same]) same += 1;
  return [...base.slice(same).map(() => '..'), ...parts.slice(same)].join('/');
};
