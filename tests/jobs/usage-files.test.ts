import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import { zoneUsage, type ZoneUsageOptions } from '../../src/jobs/zone-usage.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { usageText } from '../../src/report/usage-text.ts';
import { InputError, UsageError } from '../../src/terms/errors.ts';
import { cueBytes, type CueTrack } from './midi-cue.ts';
import { lift, reelFile, strike, turn, type ReelPiece } from './reel-file.ts';
import { cue as scoreCue, note as placedNote } from './small-score.ts';
import { runs, share } from '../runs.ts';

type Contents = Readonly<Record<string, string | Uint8Array>>;

/** Layers by controller 1 that sound on after the release for as long as may be, and two switches. */
const table = `key,articulation,switch,keys,velocities,controllers,bytes
a,long,24,58-62,1-127,1:0-70,1000
b,long,24,58-62,1-127,1:60-127,2000
c,short,25,58-66,1-64,,8000
d,short,25,58-66,65-127,,16000
`;

const template = `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: copy, unloads: sample } }
instruments:
  band: { zones: band.csv, middle-c: C4 }
  spare: { zones: spare.csv, middle-c: C4 }
headroom: { controller: 8 }
routes:
  - { track: 'Click*', ignore: true }
  - { track: 'Two', cue: '1m2', instrument: spare, transpose: 40 }
  - { track: 'Gone', instrument: spare }
  - { join: ['Sw {n}', 'Notes {n}'], instrument: band }
  - { track: 'Fixed {art}', instrument: band, articulation: '{art}' }
  - { track: 'O*', instrument: band }
  - { track: 'One', instrument: spare }
  - { track: 'Two', instrument: band }
`;

const base: Contents = { 'keepset.yaml': template, 'band.csv': table, 'spare.csv': table };

const note = fc.record({
  tick: fc.nat(900),
  length: fc.integer({ min: 1, max: 300 }),
  key: fc.oneof(fc.constantFrom(24, 25), fc.integer({ min: 57, max: 90 })),
  velocity: fc.integer({ min: 1, max: 127 }),
});
const names = ['One', 'Two', 'Click', 'Lost', 'Sw 1', 'Notes 1', 'Fixed long', 'Fixed lang'];
const track = fc.record({
  name: fc.constantFrom(...names),
  notes: fc.array(note, { maxLength: 6 }),
});
const cue = fc.array(track, { minLength: 1, maxLength: 4 });
const numbers = ['1m1', '1m2', '1m2 v2', '1m3 Ferry', 'Pier'] as const;
const reel = fc.record({
  cues: fc.array(cue, { minLength: numbers.length, maxLength: numbers.length }),
  /** For each cue the usage files that hold it, as bits: at least one. */
  groups: fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 5, maxLength: 5 }),
  order: fc.shuffledSubarray([0, 1, 2], { minLength: 3 }),
  damaged: fc.nat(9),
});

const cuesOf = (cues: readonly (readonly CueTrack[])[], damaged: number): Contents =>
  Object.fromEntries(
    cues.map((tracks, i) => {
      const bytes = cueBytes(tracks);
      const cut = i === damaged ? bytes.subarray(0, -9) : bytes;
      return [`cues/${numbers[i]!}.mid`, i === damaged - 5 ? new Uint8Array(3) : cut];
    }),
  );

/** A plan as `--format json` writes it. */
const planText = async (contents: Contents, options: PlanOptions = {}): Promise<string> =>
  toJson(withMessages(await plan({ files: new MemoryFiles(contents), ...options })));

const usageOf = async (contents: Contents, options: ZoneUsageOptions = {}): Promise<string> =>
  usageText(
    await zoneUsage({ template: 'keepset.yaml', files: new MemoryFiles(contents), ...options }),
  );

/** The plan of several usages, without a cue at hand. */
const planOfUsage = (
  usages: readonly string[],
  options: PlanOptions = {},
  contents: Contents = base,
): Promise<string> => {
  const files = usages.map((text, i): [string, string] => [`u${String(i)}.json`, text]);
  return planText(
    { ...contents, ...Object.fromEntries(files) },
    { ...options, usage: files.map(([path]) => path) },
  );
};

describe('the plan of usage files is the plan of one run, byte for byte', () => {
  test('however cues are grouped, in any order, with cues twice', async () => {
    await fc.assert(
      fc.asyncProperty(reel, async ({ cues, groups, order, damaged }) => {
        const own = cuesOf(cues, damaged);
        const paths = Object.keys(own);
        const usages: string[] = [];
        for (const group of order) {
          const some = paths.filter((_, i) => ((groups[i]! >> group) & 1) === 1);
          if (some.length === 0) continue;
          usages.push(await usageOf({ ...base, ...own }, { cues: some }));
        }
        const whole = await planText({ ...base, ...own });
        expect(await planOfUsage(usages)).toBe(whole);
        const options = { without: ['1m1'], newest: true, headroom: { keys: 1 } };
        expect(await planOfUsage(usages, options)).toBe(
          await planText({ ...base, ...own }, options),
        );
      }),
      { numRuns: runs(25), seed: 5 },
    );
  });

  test('voices that sound to the end of the cue, which JSON has no number for', async () => {
    const fader = (tick: number, value: number) =>
      [[tick, { type: 'controller', channel: 0, controllerType: 1, value } as never]] as const;
    const events = [fader(0, 20), placedNote(10, 60), fader(600, 40), fader(900, 120)];
    const contents = { ...base, 'cues/1m1.mid': scoreCue({ name: 'One', events }) };
    const usage = await usageOf(contents);
    expect(usage).toContain('"after":null');
    const whole = await planText(contents);
    expect(whole).toContain('"tail"');
    expect(await planOfUsage([usage])).toBe(whole);
  });

  test('reels in one file, split at their markers', async () => {
    const piece = (marker: string, name: string, key: number): ReelPiece => ({
      marker,
      length: 960,
      tracks: { [name]: [strike(10, key), turn(200, 1, 90), lift(300, key)] },
    });
    const one = reelFile([
      piece('1m2 v1', 'Two', 60),
      piece('1m1', 'One', 59),
      piece('1m2 v2', 'Lost', 62),
    ]);
    const two = reelFile([piece('low', 'Notes 1', 61), piece('high', 'Sw 1', 25)]);
    const contents = { ...base, 'cues/a.mid': one, 'cues/b.mid': two };
    const split = { split: 'markers' as const };
    const usages = [
      await usageOf(contents, { ...split, cues: ['cues/b.mid'] }),
      await usageOf(contents, { ...split, cues: ['cues/a.mid'] }),
      await usageOf(contents, { ...split, without: ['1m1'] }),
    ];
    const whole = await planText(contents, split);
    expect(whole).toContain('"1m2 v2"');
    expect(await planOfUsage(usages)).toBe(whole);
    const less = { ...split, without: ['1m2 v2'] };
    expect(await planOfUsage(usages, less)).toBe(await planText(contents, less));
  });

  test('the demo, cue by cue', async () => {
    const demo = Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes]));
    const cues = Object.keys(demo).filter((path) => path.startsWith('cues/'));
    expect(cues.length).toBeGreaterThanOrEqual(9);
    const usages: string[] = [];
    for (const some of [cues.slice(4), cues.slice(0, 3), cues.slice(2, 6)]) {
      usages.push(await usageOf(demo, { cues: some }));
    }
    const isCue = (path: string): boolean => path.endsWith('.mid');
    const rest = Object.fromEntries(Object.entries(demo).filter(([path]) => !isCue(path)));
    expect(await planOfUsage(usages, {}, rest)).toBe(await planText(demo));
  }, 240_000);
});

const fixed: readonly CueTrack[] = [
  { name: 'One', notes: [{ tick: 0, length: 100, key: 60, velocity: 80 }] },
];
const fixedReel: Contents = {
  ...base,
  'cues/1m1.mid': cueBytes(fixed),
  'cues/1m2 v1.mid': cueBytes([...fixed, { name: 'Two', notes: fixed[0]!.notes }]),
  'cues/1m2 v2.mid': cueBytes([{ name: 'Two', notes: fixed[0]!.notes }]),
};

describe('what was said of the cues', () => {
  test('is taken over from usage', async () => {
    const said = { without: ['1m1'], newest: true };
    const usage = await usageOf(fixedReel, said);
    expect(await planOfUsage([usage])).toBe(await planText(fixedReel, said));
    expect(await planOfUsage([usage], said)).toBe(await planText(fixedReel, said));
  });

  test('a cue that one usage left out and another has is there', async () => {
    const some = await usageOf(fixedReel, { without: ['1m1'] });
    const other = await usageOf(fixedReel, { cues: ['cues/1m1.mid'] });
    expect(await planOfUsage([some, other])).toBe(await planText(fixedReel));
  });

  test('rare notes and the curve, where usage was made for them', async () => {
    const asked = { rare: 3, headroomCurve: true };
    const usage = await usageOf(fixedReel, { everyPlace: true, headroomCurve: true });
    expect(await planOfUsage([usage], asked)).toBe(await planText(fixedReel, asked));
    expect(await planOfUsage([usage])).toBe(await planText(fixedReel));
  });

  test('a version counts when the newer one is left out later', async () => {
    const usage = await usageOf(fixedReel, { newest: true });
    expect(await planOfUsage([usage], { without: ['1m2 v2'] })).toBe(
      await planText(fixedReel, { newest: true, without: ['1m2 v2'] }),
    );
  });
});

/** The code of what stops a plan. */
const stopOf = async (made: Promise<string>): Promise<string> => {
  try {
    await made;
  } catch (error) {
    if (error instanceof InputError) return error.finding.code;
    throw error;
  }
  return 'none';
};

describe('refused', () => {
  test('usage of another template, other instruments, another room', async () => {
    const usage = await usageOf(fixedReel);
    const stop = (changed: Contents, options: PlanOptions = {}) =>
      stopOf(planOfUsage([usage], options, { ...base, ...changed }));
    expect(await stop({})).toBe('none');
    expect(await stop({ 'keepset.yaml': `${template}#` })).toBe('usage-file-template');
    expect(await stop({ 'band.csv': `${table}e,long,24,70-70,1-9,,1\n` })).toBe(
      'usage-file-instrument',
    );
    expect(await stop({}, { headroom: { controller: 0 } })).toBe('none');
    expect(await stop({}, { headroom: { controller: 8 } })).toBe('none');
    expect(await stop({}, { headroom: { controller: 9 } })).toBe('usage-file-room');
    expect(await stop({}, { headroomCurve: true })).toBe('usage-file-room');
    expect(await stop({}, { rare: 2 })).toBe('usage-file-places');
    expect(await stop({}, { split: 'markers' })).toBe('usage-file-split');
    expect(await stop({}, { template: undefined, instrument: 'band.csv', middleC: 4 })).toBe(
      'usage-file-template',
    );
  });

  test('usages that were not made alike, or do not go together', async () => {
    const [one, newest] = [await usageOf(fixedReel), await usageOf(fixedReel, { newest: true })];
    expect(await stopOf(planOfUsage([one, newest]))).toBe('usage-files-differ');
    const again = { ...fixedReel, 'cues/1m1.mid': cueBytes([]) };
    const changed = await usageOf(again, { cues: ['cues/1m1.mid'] });
    expect(await stopOf(planOfUsage([one, changed]))).toBe('usage-files-changed');
    const parts = { ...base, 'cues/2m1 a.mid': cueBytes(fixed), 'cues/2m1 b.mid': cueBytes(fixed) };
    const [a, b, both] = [
      await usageOf(parts, { cues: ['cues/2m1 a.mid'] }),
      await usageOf(parts, { cues: ['cues/2m1 b.mid'] }),
      await usageOf(parts),
    ];
    expect(await stopOf(planOfUsage([a, b]))).toBe('usage-files-cue');
    expect(await stopOf(planOfUsage([both, a]))).toBe('none');
    expect(await stopOf(planOfUsage([both, b]))).toBe('usage-files-changed');
  });

  test('cues and usage at once, and cues that are not there', async () => {
    const usage = await usageOf(fixedReel);
    const both = planOfUsage([usage], { cues: ['cues/1m1.mid'] }, fixedReel);
    await expect(both).rejects.toThrow(UsageError);
    await expect(planOfUsage([usage], { without: ['9m9'] })).rejects.toThrow(UsageError);
    await expect(zoneUsage({ files: new MemoryFiles(fixedReel) })).rejects.toThrow(UsageError);
  });

  test('what is no usage file', async () => {
    const usage = await usageOf(fixedReel);
    const keep = await planText(fixedReel);
    const bad: readonly (readonly [text: string, code: string])[] = [
      ['', 'usage-file-json'],
      ['MThd', 'usage-file-json'],
      [usage.slice(0, -200), 'usage-file-json'],
      ['null', 'usage-file-schema'],
      ['[]', 'usage-file-schema'],
      ['{}', 'usage-file-schema'],
      [keep, 'usage-file-schema'],
      [usage.replace('zone-usage@1', 'zone-usage@2'), 'usage-file-schema'],
      [usage.replace('"everyPlace"', '"everyWhere"'), 'usage-file-value'],
    ];
    for (const [text, code] of bad) expect(await stopOf(planOfUsage([text]))).toBe(code);
    expect(await stopOf(planText(base, { usage: ['none.json'] }))).toBe('path-missing');
  });
});

type Json = null | boolean | number | string | Json[] | JsonKeys;
interface JsonKeys {
  [key: string]: Json;
}

describe('edited by hand', () => {
  test('nothing crashes or hangs: it is refused, or it is a plan', async () => {
    const usage = await usageOf(fixedReel);
    let refused = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.nat(1000), { minLength: 12, maxLength: 12 }),
        fc.constantFrom<Json>(null, -1, 0.5, 1e300, 4096, '', 'x', [], {}, true, [[]], '__proto__'),
        async (steps, value) => {
          const edited = JSON.parse(usage) as Json;
          let at: Json = edited;
          let put: (one: Json) => void = () => undefined;
          for (const step of steps) {
            if (typeof at !== 'object' || at === null) break;
            const keys = Object.keys(at);
            if (keys.length === 0) break;
            const key = keys[step % keys.length]!;
            const holder = at as JsonKeys;
            put = (one) => {
              holder[key] = one;
            };
            at = holder[key]!;
          }
          put(value);
          const stop = await stopOf(planOfUsage([JSON.stringify(edited)])).catch(
            (error: unknown) => {
              if (error instanceof UsageError) return 'usage';
              throw error;
            },
          );
          if (stop !== 'none') refused++;
        },
      ),
      { numRuns: runs(300), seed: 6 },
    );
    expect(refused).toBeGreaterThan(share(100));
  });
});
