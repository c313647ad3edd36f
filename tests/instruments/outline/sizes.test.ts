import { describe, expect, test } from 'vitest';
import { outlineInstrument } from '../../../src/instruments/outline/outline-instrument.ts';
import { calibrate } from '../../../src/memory/calibrate.ts';
import { memoryOf } from '../../../src/memory/loaded-memory.ts';
import { zoneLoad } from '../../../src/memory/zone-load.ts';
import { defaultPlayer } from '../../../src/template/player.ts';
import { articulation, at, built, key, legato, outline, releases } from './build.ts';

/** Sizes by hand: frames x channels x bytes of a sample point (design, section 7). */
const sizes = ({ samples }: ReturnType<typeof built>): readonly number[] =>
  samples.map(({ frames, channels, width }) => frames * channels * width);

const place = { line: 7, column: 12 } as const;
const read = (bytes: number) => ({ bytes, at: place });

const mebibyte = 2 ** 20;
/** Everything that a player might do to a sample it reads from its file. */
const streamed = {
  ...defaultPlayer,
  loads: 'streamed',
  head: { unit: 'bytes', bytes: 10 },
  width: 4,
  factor: 3,
} as const;

describe('sizes', () => {
  test('by length, as is assumed where nothing is said', () => {
    // 2 s x 48 000 x 2 channels x 3 bytes; 1.1 s x 44 100 x 1 x 2.
    const some = built(
      articulation('a', { seconds: 2, keys: [[60, 60]] }),
      articulation('b', {
        seconds: 1.1,
        keys: [[60, 60]],
        sound: { rate: 44_100, bits: 16, channels: 1 },
      }),
    );
    expect(sizes(some)).toEqual([576_000, 97_020]);
    expect(some.findings[0]).toMatchObject({
      code: 'outline-assumed',
      args: { articulations: 1, rate: 1, bits: 1, channels: 1 },
    });
  });

  test('by what the display showed, without what it shows empty, evenly and rounded up', () => {
    const own = articulation('a', {
      sampled: [60, 62, 64],
      releases: releases({ seconds: 1, roundRobins: { count: 1, borrow: 0 } }),
      measured: read(1_010),
      legato: legato({ measured: read(40) }),
    });
    const instrument = outlineInstrument(
      outline([own], { measured: { empty: read(10), full: null } }),
      'digest',
      [],
    );
    // 1 000 over three zones; 1 s each for the releases; 30 over three transitions.
    expect(sizes(instrument)).toEqual([...[334, 334, 334, 288_000, 288_000, 288_000, 10, 10, 10]]);
    expect(instrument.samples.map(({ asLoaded }) => asLoaded === true)).toEqual([
      ...[true, true, true, false, false, false, true, true, true],
    ]);
  });

  test('transitions that nothing else is known of share what was read of all', () => {
    const own = articulation('a', { keys: [[60, 60]], measured: read(100), legato: legato() });
    expect(sizes(built(own))).toEqual([50, 50]);
  });

  test('not known: no sound to count, and told', () => {
    const some = built(articulation('a'), articulation('b', { measured: read(5) }));
    expect(some.samples.map(({ present }) => present)).toEqual([false, true]);
    expect(some.findings).toContainEqual(
      expect.objectContaining({
        code: 'outline-size-unknown',
        args: { articulations: ['a'], parts: [''], more: 0 },
      }),
    );
  });

  test('told of a part, where the rest is known', () => {
    const some = built(
      articulation('a', { seconds: 1, releases: releases(), legato: legato({ seconds: 1 }) }),
      articulation('b', { releases: releases({ seconds: 1 }) }),
      articulation('c', { releases: releases(), legato: legato() }),
      articulation('d', { seconds: 1, releases: releases(), legato: legato() }),
    );
    expect(some.findings).toContainEqual(
      expect.objectContaining({
        code: 'outline-size-unknown',
        args: {
          articulations: ['a', 'b', 'c', 'd'],
          parts: ['release', 'note', '', 'release legato'],
          more: 0,
        },
      }),
    );
  });

  test("the player's head, width and factor are in what its display showed", () => {
    const some = built(articulation('a', { keys: [[60, 60]], measured: read(mebibyte) }));
    expect(zoneLoad(some, streamed, new Uint8Array([1]))).toEqual({ zones: 1, samples: mebibyte });
    const timed = built(articulation('a', { keys: [[60, 60]], seconds: 2 }));
    // A head of 10 bytes, times the factor.
    expect(zoneLoad(timed, streamed, new Uint8Array([1])).samples).toBe(30);
  });
});

describe('readings', () => {
  const two = outlineInstrument(
    outline(
      [
        articulation('sustain', { choice: key(24), keys: [[60, 60]], measured: read(300) }),
        articulation('tremolo', { choice: key(25), keys: [[60, 60]], measured: read(500) }),
      ],
      { measured: { empty: read(100), full: read(700) } },
    ),
    'digest',
    [],
  );

  test('count as the template’s do', () => {
    const { calibration, findings } = calibrate(two, defaultPlayer, [], 'keepset.yaml');
    expect(findings).toEqual([]);
    expect(calibration).toMatchObject({ basis: 'fitted', readings: 4 });
    const copies = [{ zones: new Uint8Array([0, 1]), count: 1 }];
    expect(memoryOf({ instrument: two, player: defaultPlayer, calibration, copies })).toEqual({
      ...{ bytes: 500, low: 500, high: 500, basis: 'read' },
    });
  });

  test('of equal size, each articulation takes what its own says', () => {
    const at61 = { choice: key(25), keys: [[61, 61]], sampled: [61, 62, 63] } as const;
    const equal = outlineInstrument(
      outline([
        articulation('sustain', { choice: key(24), keys: [[60, 60]], measured: read(1_000) }),
        articulation('tremolo', { ...at61, measured: read(1_000) }),
      ]),
      'digest',
      [],
    );
    const { calibration } = calibrate(equal, defaultPlayer, [], null);
    const all = [{ zones: new Uint8Array([1, 1, 1, 1]), count: 1 }];
    const loaded = { instrument: equal, player: defaultPlayer, calibration, copies: all };
    // Each zone is rounded up to whole bytes: three of them take 1 002.
    expect(Math.abs(memoryOf(loaded).bytes - 2_000)).toBeLessThanOrEqual(3);
  });

  test('the template’s win; a finding names the file its reading stands in', () => {
    const own = [{ of: 'Tremolo', bytes: 9_000, at }];
    const { calibration } = calibrate(two, defaultPlayer, own, 'keepset.yaml');
    const bytes = 'states' in calibration ? calibration.states.map((state) => state.bytes) : [];
    expect(bytes).toEqual([9_000, 100, 700, 300]);

    const stray = { of: 'trmolo', bytes: 1, at: place, file: 'outlines/horns.yaml' };
    const { findings } = calibrate(
      { ...two, readings: [stray] },
      defaultPlayer,
      [{ of: 'sustan', bytes: 1, at }],
      'keepset.yaml',
    );
    expect(findings.map(({ code, file, at: where }) => [code, file, where])).toEqual([
      ['reading-articulation', 'keepset.yaml', at],
      ['reading-articulation', 'outlines/horns.yaml', place],
    ]);
  });
});
