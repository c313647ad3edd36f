import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { compareCues, parseCueName, type CueName } from '../../src/midi/cue-name.ts';

/** Cue numbers are reel, m, cue, as scores are numbered (common practice); the titles are invented. */
describe('cue names', () => {
  test.each([
    // path, reel, cue, suffix, title, version, id
    ['1m2 Harbour v3.mid', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['2m07.mid', 2, 7, '', null, null, '2m07'],
    ['3m02A The Ferry v5.mid', 3, 2, 'A', 'The Ferry', 5, '3m02A v5'],
    ['1m2alt Title.mid', 1, 2, 'alt', 'Title', null, '1m2alt'],
    ['1M2_Harbour_V3.MID', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['1m2.midi', 1, 2, '', null, null, '1m2'],
    ['1m2v3.mid', 1, 2, '', null, 3, '1m2 v3'],
    ['1m2Av3.mid', 1, 2, 'A', null, 3, '1m2A v3'],
    ['1m2alt2 Harbour.mid', 1, 2, 'alt2', 'Harbour', null, '1m2alt2'],
    ['1m2 - Harbour - v12.mid', 1, 2, '', 'Harbour', 12, '1m2 v12'],
    ['1m2 Harbour (v3).mid', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['1m2_v3_Harbour.mid', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['1m2 Harbour v3 machine b.mid', 1, 2, '', 'Harbour machine b', 3, '1m2 v3'],
    ['1m2 Harbour v3 2026-11-02.mid', 1, 2, '', 'Harbour 2026-11-02', 3, '1m2 v3'],
    ['1m2 Harbour v03.mid', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['1m2 v1 to v2.mid', 1, 2, '', 'v1 to', 2, '1m2 v2'],
    ['1m2Harbour.mid', 1, 2, '', 'Harbour', null, '1m2'],
    ['1m2 Nachtmärz – Überfahrt.mid', 1, 2, '', 'Nachtmärz – Überfahrt', null, '1m2'],
    ['HBR 1m2 Harbour v3.mid', 1, 2, '', 'Harbour', 3, '1m2 v3'],
    ['HBR_1m2_Harbour.mid', 1, 2, '', 'Harbour', null, '1m2'],
    ['reel 1/1m2 Harbour.mid', 1, 2, '', 'Harbour', null, '1m2'],
    ['3m1/1m2.mid', 1, 2, '', null, null, '1m2'],
    ['10m12 Quay.mid', 10, 12, '', 'Quay', null, '10m12'],
    ['1m2 Harbour v3.1.mid', 1, 2, '', 'Harbour v3.1', null, '1m2'],
    ['1m2 Harbour rev3.mid', 1, 2, '', 'Harbour rev3', null, '1m2'],
  ])('%s', (path, reel, cue, suffix, title, version, id) => {
    expect(parseCueName(path)).toEqual({ number: { reel, cue, suffix }, title, version, id });
  });

  test.each([
    ['Harbour.mid', 'Harbour', null, 'Harbour'],
    ['cues/Harbour v3.mid', 'Harbour', 3, 'cues/Harbour v3'],
    ['cues/harbour.two.MID', 'harbour.two', null, 'cues/harbour.two'],
    ['harbour', 'harbour', null, 'harbour'],
    ['1m2/harbour.mid', 'harbour', null, '1m2/harbour'],
    ['12345m1.mid', '12345m1', null, '12345m1'],
    ['1m23456.mid', '1m23456', null, '1m23456'],
    ['a1m2.mid', 'a1m2', null, 'a1m2'],
    ['3m.mid', '3m', null, '3m'],
    ['v2.mid', null, 2, 'v2'],
    ['.mid', null, null, ''],
  ])('%s has no cue number', (path, title, version, id) => {
    expect(parseCueName(path)).toEqual({ number: null, title, version, id });
  });

  it('any path, and a long one at once', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (path) => {
        const { id, number } = parseCueName(path);
        if (number === null) expect(path.startsWith(id)).toBe(true);
      }),
      { seed: 5 },
    );
    for (const unit of ['1m', '1m2a', ' v1', '_', 'm', '1']) {
      parseCueName(`${unit.repeat(50_000)}.mid`);
    }
  });
});

describe('the order of cues', () => {
  const ordered = [
    '1m1.mid',
    '1m1 v1.mid',
    '1m1 v2.mid',
    '1m1 v10.mid',
    '1m1A.mid',
    '1m1alt.mid',
    '1m1alt v3.mid',
    '1m1alt2.mid',
    '1m1alt10.mid',
    '1m1B.mid',
    '1m02.mid',
    '1m2.mid',
    '1m10.mid',
    '2m1.mid',
    '10m1.mid',
    'cues/Ferry 2.mid',
    'cues/ferry 10.mid',
    'Harbour.mid',
  ];

  it('is reel, cue, suffix, version, all as numbers; names without a number last', () => {
    const names = ordered.map(parseCueName);
    for (let seed = 0; seed < 20; seed += 1) {
      const mixed = names
        .map((name, index) => ({ name, key: Math.imul(index + 1, 2_654_435_761 + seed) >>> 8 }))
        .sort((a, b) => a.key - b.key)
        .map(({ name }) => name);
      expect([...mixed].sort(compareCues)).toEqual(names);
    }
  });

  test.each([
    ['1m1 Ferry.mid', '1m1 Harbour.mid'],
    ['1m01.mid', '1m1.mid'],
    ['1m1A.mid', '1m1a.mid'],
    ['Harbour.mid', 'harbour.mid'],
    ['cue 01.mid', 'cue 1.mid'],
  ])('%s and %s, alike but for writing or title, have an order too', (first, second) => {
    const [a, b] = [parseCueName(first), parseCueName(second)];
    expect([compareCues(a, b), compareCues(b, a)].map(Math.sign)).toEqual([-1, 1]);
  });

  const anyName = fc
    .array(fc.constantFrom('1', '2', '10', '0', 'm', 'M', 'a', 'B', ' ', 'v', '/', 'é'), {
      maxLength: 8,
    })
    .map((letters) => parseCueName(`${letters.join('')}.mid`));

  it('is total: the same for a and b turned round, and 0 only for the same cue and title', () => {
    fc.assert(
      fc.property(anyName, anyName, (a, b) => {
        expect(Math.sign(compareCues(a, b)) + Math.sign(compareCues(b, a))).toBe(0);
        if (compareCues(a, b) === 0) {
          expect([a.id, a.title]).toEqual([b.id, b.title]);
        }
      }),
      { seed: 6, numRuns: 2000 },
    );
  });

  it('has no rings', () => {
    fc.assert(
      fc.property(fc.tuple(anyName, anyName, anyName), (three) => {
        const [a, b, c] = [...three].sort(compareCues) as [CueName, CueName, CueName];
        expect(compareCues(a, b)).toBeLessThanOrEqual(0);
        expect(compareCues(b, c)).toBeLessThanOrEqual(0);
        expect(compareCues(a, c)).toBeLessThanOrEqual(0);
      }),
      { seed: 7, numRuns: 2000 },
    );
  });
});
