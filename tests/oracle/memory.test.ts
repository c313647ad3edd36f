/** Sums that fit on paper, for each rule about memory. */
import { describe, expect, test } from 'vitest';
import {
  computed,
  figure,
  fit,
  load,
  machine,
  type Head,
  type MemoryInstrument,
  type MemoryPlayer,
  type MemorySample,
} from './memory.ts';

/** Stereo, 16 bit: 4 bytes a frame. 1000 frames are 4000 bytes. */
const sample = (frames: number, more: Partial<MemorySample> = {}): MemorySample => ({
  frames,
  channels: 2,
  rate: 44_100,
  width: 2,
  present: true,
  ...more,
});

const player = (more: Partial<MemoryPlayer> = {}): MemoryPlayer => ({
  id: 'p',
  head: null,
  width: null,
  perZone: 10,
  perCopy: 100,
  shares: 'copy',
  ...more,
});

/** Loads 4000 (a), 2000 (b), 1000 (c). Zones: a, b, a again, c. */
const instrument = (
  more: Partial<MemoryPlayer> = {},
  readings: MemoryInstrument['readings'] = [],
): MemoryInstrument => ({
  sha256: 'one',
  player: player(more),
  samples: { a: sample(1000), b: sample(500), c: sample(250) },
  zones: [['a'], ['b'], ['a'], ['c']],
  readings,
});

describe('the load of a sample', () => {
  test.each<[string, MemorySample, Partial<MemoryPlayer>, number]>([
    ['whole', sample(1000), {}, 4000],
    ['whole, 24 bit mono', sample(1000, { channels: 1, width: 3 }), {}, 3000],
    ["whole, at the player's 4 bytes", sample(1000), { width: 4 }, 8000],
    ['missing', sample(1000, { present: false }), {}, 0],
    ['missing, streamed', sample(1000, { present: false }), { head: { bytes: 64 } }, 0],
    ['head in bytes', sample(1000), { head: { bytes: 1024 } }, 1024],
    ['head longer than the sample', sample(1000), { head: { bytes: 4001 } }, 4000],
    [
      'head in bytes does not grow with the width',
      sample(1000),
      { head: { bytes: 64 }, width: 4 },
      64,
    ],
    ['head in frames', sample(1000), { head: { frames: 300 } }, 1200],
    [
      'head in frames grows with the width',
      sample(1000),
      { head: { frames: 300 }, width: 3 },
      1800,
    ],
    ['head in frames, short sample', sample(299), { head: { frames: 300 } }, 1196],
    // 1 ms at 44 100 Hz is 44.1 frames: 45 whole ones.
    ['head in time', sample(1000), { head: { milliseconds: 1 } }, 180],
    // 10 ms are 441 frames exactly, and 70 ms 3087: no frame more.
    ['head in time, whole frames', sample(1000), { head: { milliseconds: 10 } }, 1764],
    ['head in time, no rounding error', sample(9000), { head: { milliseconds: 70 } }, 12_348],
    ['head in time, short sample', sample(440), { head: { milliseconds: 10 } }, 1760],
  ])('%s', (_, one, more, bytes) => {
    expect(load(one, player(more))).toBe(bytes);
  });
});

describe('one copy', () => {
  test.each<[string, number[], number]>([
    ['nothing', [], 0],
    ['one zone', [1], 100 + 10 + 2000],
    ['two zones over one sample: two zones, one load', [0, 2], 100 + 20 + 4000],
    ['all', [0, 1, 2, 3], 100 + 40 + 7000],
  ])('%s', (_, zones, bytes) => {
    expect(computed(instrument(), zones)).toBe(bytes);
  });

  test('a zone over two samples, one of them unknown', () => {
    const pair = { ...instrument(), zones: [['a', 'b'], ['x']] };
    expect(computed(pair, [0])).toBe(100 + 10 + 6000);
    expect(computed(pair, [1])).toBe(100 + 10);
  });
});

describe('lines through readings', () => {
  const point = (x: number, y: number) => ({ x, y });
  const line = (fixed: number, factor: number) => ({ fixed, factor });

  test('none: as computed', () => {
    expect(fit([])).toEqual({
      likely: line(0, 1),
      lines: [line(0, 1)],
      residual: 0,
      contradict: false,
    });
  });

  test('an empty copy: on top of what is computed, or gone when something is loaded', () => {
    expect(fit([point(0, 50)])).toEqual({
      likely: line(50, 1),
      lines: [line(50, 1), line(0, 1)],
      residual: 0,
      contradict: false,
    });
  });

  test('a loaded copy: in proportion, or a fixed amount', () => {
    expect(fit([point(100, 150)])).toMatchObject({
      likely: line(0, 1.5),
      lines: [line(0, 1.5), line(50, 1)],
      residual: 0,
    });
    // The player shows less than computed: the fixed amount is below nothing.
    expect(fit([point(100, 50)]).lines).toEqual([line(0, 0.5), line(-50, 1)]);
  });

  test('two: the line through both', () => {
    // (160 - 40) / (100 - 20) = 1.5; 40 - 1.5 x 20 = 10.
    expect(fit([point(20, 40), point(100, 160)])).toEqual({
      likely: line(10, 1.5),
      lines: [line(10, 1.5)],
      residual: 0,
      contradict: false,
    });
  });

  test('three: least squares, and the worst distance', () => {
    // Means 1 and 5. Sum of (x - 1)(y - 5) = (-1)(-3) + 0 + (1)(3) = 6, of squares 2: factor 3,
    // fixed 5 - 3 = 2. The line says 2, 5, 8 where 2, 5, 8 were read: exact.
    expect(fit([point(0, 2), point(1, 5), point(2, 8)])).toMatchObject({
      likely: line(2, 3),
      residual: 0,
    });
    // Means 1 and 4. (-1)(-2) + 0 x 1 + (1)(1) = 3, over 2: factor 1.5, fixed 2.5. The line says
    // 2.5, 4, 5.5 where 2, 5, 5 were read: off by 0.5, 1, 0.5.
    expect(fit([point(0, 2), point(1, 5), point(2, 5)])).toMatchObject({
      likely: line(2.5, 1.5),
      lines: [line(2.5, 1.5)],
      residual: 1,
    });
  });

  test('a fixed part below nothing: again, through the origin', () => {
    // The line through both is 3x - 10. Through the origin: (10 x 20 + 20 x 50) / (100 + 400) = 2.4,
    // which says 24 and 48: off by 4 and 2.
    expect(fit([point(10, 20), point(20, 50)])).toMatchObject({
      likely: line(0, 2.4),
      lines: [line(0, 2.4)],
      residual: 4,
      contradict: false,
    });
  });

  test('less shown for more loaded: a contradiction, and only the largest reading counts', () => {
    // 20 / 40 = 0.5, or 20 - 40 = -20. The likely line says 5 for x = 10, where 30 was read.
    expect(fit([point(10, 30), point(40, 20)])).toEqual({
      likely: line(0, 0.5),
      lines: [line(0, 0.5), line(-20, 1)],
      residual: 25,
      contradict: true,
    });
  });

  test('the same shown for more loaded is no contradiction', () => {
    expect(fit([point(10, 30), point(40, 30)])).toMatchObject({
      likely: line(30, 0),
      residual: 0,
      contradict: false,
    });
  });

  test('two readings of the same load say no more than one: the first', () => {
    expect(fit([point(10, 30), point(10, 20)])).toEqual({
      likely: line(0, 3),
      lines: [line(0, 3), line(20, 1)],
      residual: 10,
      contradict: false,
    });
  });
});

describe('copies apart', () => {
  test('each pays for its own zones; one that needs nothing is not loaded', () => {
    // 100 + 20 + 6000 and 100 + 10 + 4000.
    const bytes = 6120 + 4110;
    expect(figure(instrument(), [[0, 1], [2], []])).toEqual({
      likely: bytes,
      low: bytes,
      high: bytes,
      basis: 'computed',
    });
    expect(figure(instrument(), [[], []])).toMatchObject({ likely: 0, low: 0, high: 0 });
  });

  test('a fixed amount comes with each loaded copy, and its range', () => {
    const read = instrument({}, [{ zones: [], bytes: 50 }]);
    expect(figure(read, [[0, 1], [2], []])).toEqual({
      likely: 10_230 + 2 * 50,
      low: 10_230,
      high: 10_230 + 2 * 50,
      basis: 'fitted',
    });
  });

  test('the residual of each loaded copy widens the range, never below 0', () => {
    // X of c is 1110, of all 7140. Read the wrong way round: 9000 and 3570. Likely 0.5 x X, or
    // X - 3570; the likely line says 555 for c, where 9000 was read: off by 8445.
    const read = instrument({}, [
      { zones: [3], bytes: 9000 },
      { zones: [0, 1, 2, 3], bytes: 3570 },
    ]);
    // One copy with b and c: X = 100 + 20 + 3000 = 3120. Likely 1560, or 3120 - 3570 = -450.
    expect(figure(read, [[1, 3]])).toEqual({
      likely: 1560,
      low: 0,
      high: 1560 + 8445,
      basis: 'fitted',
    });
    expect(
      figure(read, [
        [1, 3],
        [1, 3],
      ]),
    ).toMatchObject({ likely: 3120, high: 3120 + 2 * 8445 });
  });

  test('a copy that holds just what was read costs the reading', () => {
    // X(all) = 7140, read 8000; X(b, c) = 3120. Likely 3120 x 8000 / 7140 = 3495.80, or
    // 3120 + 860 = 3980.
    const read = instrument({}, [{ zones: [0, 1, 2, 3], bytes: 8000 }]);
    expect(figure(read, [[3, 1, 0, 2]])).toEqual({
      likely: 8000,
      low: 8000,
      high: 8000,
      basis: 'read',
    });
    expect(
      figure(read, [
        [0, 1, 2, 3],
        [1, 3],
      ]),
    ).toEqual({
      likely: 8000 + 3496,
      low: 8000 + 3496,
      high: 8000 + 3980,
      basis: 'fitted',
    });
  });

  test('half a byte is rounded up', () => {
    // X(b) = 2110, read 1055: half of what is computed. c is 1001 bytes here, X = 1111: 555.5.
    const odd: MemoryInstrument = {
      ...instrument({}, [{ zones: [1], bytes: 1055 }]),
      samples: { b: sample(500), c: sample(1001, { channels: 1, width: 1 }) },
    };
    expect(figure(odd, [[3]]).likely).toBe(556);
  });
});

describe('copies that share', () => {
  const shared = { shares: 'machine' } as const;

  test('all hold the same zones, the samples once', () => {
    // Needed: a and b by one copy, c by another. 2 x 100 + 2 x 3 x 10 + 7000.
    expect(figure(instrument(shared), [[0, 1], [3]])).toMatchObject({
      likely: 7260,
      basis: 'computed',
    });
    // One copy alone costs the same as apart.
    expect(figure(instrument(shared), [[0, 1]]).likely).toBe(6120);
    // A copy that needs nothing is not loaded, here as well.
    expect(figure(instrument(shared), [[0, 1], []]).likely).toBe(6120);
  });

  test('calibrated: the fixed amount and the own part by copy, the samples once', () => {
    // Two readings on 20 + 2 x X: X(c) = 1110 shows 2240, X(b) = 2110 shows 4240.
    const read = instrument(shared, [
      { zones: [3], bytes: 2240 },
      { zones: [1], bytes: 4240 },
    ]);
    // Two copies of b and c: 2 x (20 + 2 x (100 + 20)) + 2 x 3000 = 520 + 6000.
    expect(figure(read, [[1], [3]])).toEqual({
      likely: 6520,
      low: 6520,
      high: 6520,
      basis: 'fitted',
    });
    // What was read for one copy says nothing plain about two that share: 2 x (20 + 2 x 110) + 4000.
    expect(figure(read, [[1], [1]])).toMatchObject({ likely: 4480, basis: 'fitted' });
    // One copy shares with nobody.
    expect(figure(read, [[1]])).toMatchObject({ likely: 4240, basis: 'read' });
  });
});

describe('copies that share, by readings that contradict each other', () => {
  // As above: likely 0.5 x X, or X - 3570; the residual is 8445.
  const read = instrument({ shares: 'machine' }, [
    { zones: [3], bytes: 9000 },
    { zones: [0, 1, 2, 3], bytes: 3570 },
  ]);

  test('the residual counts for each copy', () => {
    // Two copies of b and c: 2 x 0.5 x 120 + 0.5 x 3000; or 2 x (120 - 3570) + 3000, below nothing.
    expect(figure(read, [[1], [3]])).toMatchObject({
      likely: 1620,
      low: 0,
      high: 1620 + 2 * 8445,
    });
  });

  test('and on a machine with another instrument of the same definition', () => {
    // Own parts 2 x 0.5 x 120 and 120; a 4000 (the other's price), b 0.5 x 2000, c 1000.
    const placed = [
      { instrument: read, copies: [[0], [1]] },
      { instrument: instrument({ shares: 'machine' }), copies: [[2, 3]] },
    ];
    expect(machine(placed, null)).toMatchObject({ likely: 6240, low: 0, high: 6240 + 2 * 8445 });
  });
});

describe('a machine', () => {
  const shared = { shares: 'machine' } as const;
  const two = (one: MemoryInstrument, other: MemoryInstrument, budget: number | null = null) =>
    machine(
      [
        { instrument: one, copies: [[0, 1]] },
        { instrument: other, copies: [[2, 3]] },
      ],
      budget,
    );
  // Apart: 100 + 20 + 6000 = 6120 and 100 + 20 + 5000 = 5120.

  test('one definition, one player that shares: each sample once', () => {
    // a is held by both: 11 240 - 4000.
    expect(two(instrument(shared), instrument(shared)).likely).toBe(7240);
  });

  test.each<[string, MemoryInstrument]>([
    ['another definition', { ...instrument(shared), sha256: 'two' }],
    ['another player', instrument({ ...shared, id: 'q' })],
    ['copies apart', instrument()],
  ])('%s: nothing is shared', (_, other) => {
    expect(two(instrument(shared), other).likely).toBe(11_240);
  });

  test('two players that keep copies apart share nothing with each other', () => {
    expect(two(instrument(), instrument()).likely).toBe(11_240);
  });

  test('a shared sample costs the highest price among its instruments', () => {
    // Twice the computed bytes for the second: 2 x 7140 = 14 280 read for a full copy, or 7140 more.
    const dear = instrument(shared, [{ zones: [0, 1, 2, 3], bytes: 14_280 }]);
    // Likely: own parts 120 and 2 x 120; a 2 x 4000, b 2000, c 2 x 1000: 360 + 12 000.
    // Or: own parts 120 and 7140 + 120; a 4000, b 2000, c 1000: 7380 + 7000.
    const expected = { likely: 12_360, low: 12_360, high: 14_380 };
    expect(two(instrument(shared), dear)).toMatchObject(expected);
    // The other way about, b is the dear one: own 240 and 120; a 8000, b 4000, c 1000.
    expect(two(dear, instrument(shared)).likely).toBe(13_360);
  });

  test('the copies of one instrument and of another, together', () => {
    // 2 copies of {a, b} and 1 of {a, c}: 2 x (100 + 20) + (100 + 20) + 7000.
    expect(
      machine(
        [
          { instrument: instrument(shared), copies: [[0], [1]] },
          { instrument: instrument(shared), copies: [[2, 3]] },
        ],
        null,
      ).likely,
    ).toBe(7360);
  });

  test('it fits when the high figure is within the budget', () => {
    // The range of a reading of an empty copy: 6120 to 6170.
    const read = instrument({}, [{ zones: [], bytes: 50 }]);
    const placed = [{ instrument: read, copies: [[0, 1]] }];
    expect(machine(placed, 6170)).toEqual({ likely: 6170, low: 6120, high: 6170, fits: true });
    expect(machine(placed, 6169).fits).toBe(false);
    expect(machine(placed, null).fits).toBeNull();
    // X(b, c) = 3120; read 8000 for all: likely 3496, high 3980 as above. Between them: no.
    const more = instrument({}, [{ zones: [0, 1, 2, 3], bytes: 8000 }]);
    const between = [{ instrument: more, copies: [[1, 3]] }];
    expect(machine(between, 3979)).toEqual({ likely: 3496, low: 3496, high: 3980, fits: false });
    expect(machine(between, 3980).fits).toBe(true);
    // Likely 0.5 x 6120 = 3060; high 3060 is the likely line, low the other one, 6120 - 3570.
    const less = instrument({}, [{ zones: [0, 1, 2, 3], bytes: 3570 }]);
    expect(machine([{ instrument: less, copies: [[0, 1]] }], 3059)).toEqual({
      likely: 3060,
      low: 2550,
      high: 3060,
      fits: false,
    });
  });

  test('nothing loaded: nothing', () => {
    expect(machine([], 10)).toEqual({ likely: 0, low: 0, high: 0, fits: true });
    expect(machine([{ instrument: instrument(), copies: [[]] }], null).likely).toBe(0);
  });

  test('heads of every kind reach the figure', () => {
    const heads: Head[] = [{ bytes: 400 }, { frames: 100 }, { milliseconds: 2 }];
    // a, b, c: 400 each; 100 frames x 4; 2 ms are 88.2 frames, so 89 x 4 = 356 each.
    expect(heads.map((head) => figure(instrument({ head }), [[0, 1, 3]]).likely)).toEqual([
      130 + 1200,
      130 + 1200,
      130 + 1068,
    ]);
  });
});
