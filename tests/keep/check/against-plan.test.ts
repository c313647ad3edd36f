/** A check says before planning what planning again would add: on random small reels, from their files. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { check } from '../../../src/jobs/check.ts';
import { plan } from '../../../src/jobs/plan.ts';
import type { Check } from '../../../src/keep/check/check.ts';
import type { Plan, PlanInstrument } from '../../../src/keep/plan.ts';
import { toJson } from '../../../src/report/json.ts';
import { cueBytes, type CueNote } from '../../jobs/midi-cue.ts';
import { runs, share } from '../../runs.ts';

const table = `key,articulation,switch,keys,velocities,microphone,bytes
a,long,24,58-62,1-127,near,1000
b,long,24,58-62,1-127,far,2000
c,long,24,63-66,1-127,near,4000
d,short,25,58-66,1-64,near,8000
e,short,25,58-66,65-127,near,16000
f,roll,26,60-60,1-127,far,32000
g,,,58-60,100-127,near,64000
`;

const template = (shares: string, settle: string): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, per-copy: 500 B, shares: ${shares}, unloads: sample } }
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes: [{ track: '*', instrument: band }]
settle: {${settle}}
`;

const note = fc.record({
  tick: fc.integer({ min: 0, max: 400 }),
  length: fc.integer({ min: 1, max: 60 }),
  key: fc.oneof(fc.constantFrom(24, 25, 26), fc.integer({ min: 57, max: 67 })),
  velocity: fc.integer({ min: 1, max: 127 }),
});
const cueOf = fc.array(fc.array(note, { minLength: 1, maxLength: 5 }), {
  minLength: 1,
  maxLength: 2,
});

const bytesOf = (tracks: readonly (readonly CueNote[])[]): Uint8Array =>
  cueBytes(tracks.map((notes, i) => ({ name: `Track ${String(i + 1)}`, notes })));

const open = '';
const settled = 'start-state: plain, no-switch: plain, order: plain';

interface Reel {
  readonly keepset: string;
  readonly cues: Readonly<Record<string, Uint8Array>>;
}

const disk = ({ keepset, cues }: Reel, more: Readonly<Record<string, string>> = {}) =>
  new MemoryFiles({ 'keepset.yaml': keepset, 'band.csv': table, ...cues, ...more });

const only = ({ instruments: [band] }: Plan): PlanInstrument => band!;

/** Zones in each copy where each keeps its own, else in all. */
const keptIn = (band: PlanInstrument): ReadonlySet<string> =>
  new Set(
    band.copies.flatMap(({ name, kept }) =>
      kept === null
        ? band.kept.map(({ zone }) => `null ${String(zone)}`)
        : kept.map((zone) => `${name} ${String(zone)}`),
    ),
  );

const missed = ({ misses }: Check): ReadonlySet<string> =>
  new Set(misses.map(({ copy, zone }) => `${String(copy)} ${String(zone)}`));

const less = (a: ReadonlySet<string>, b: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...a].filter((one) => !b.has(one)));

describe.each([
  ['machine', open],
  ['machine', settled],
  ['copy', open],
  ['copy', settled],
])('copies share by %s, settled: %s', (shares, settle) => {
  const keepset = template(shares, settle);

  test('the whole reel against a plan of a part of it: what a plan of all would add', async () => {
    let some = 0;
    await fc.assert(
      fc.asyncProperty(cueOf, cueOf, async (one, two) => {
        const first = { 'cues/1m1.mid': bytesOf(one) };
        const all = { ...first, 'cues/1m2.mid': bytesOf(two) };
        const before = await plan({ files: disk({ keepset, cues: first }) });
        const after = await plan({ files: disk({ keepset, cues: all }) });
        const files = disk({ keepset, cues: all }, { 'keep.json': toJson(before) });
        const checked = await check({ keep: 'keep.json', files });
        const expected = less(keptIn(only(after)), keptIn(only(before)));
        expect(missed(checked)).toEqual(expected);
        expect(checked.verdict === 'missing').toBe(expected.size > 0);
        // With all of it loaded again, the machine holds what the plan of all would keep, and what
        // only the old plan kept.
        const [machine] = checked.machines;
        expect(machine!.bytes.kept).toBe(before.machines[0]!.bytes.kept);
        expect(machine!.bytes.reloaded).toBeGreaterThanOrEqual(after.machines[0]!.bytes.kept);
        some += Number(expected.size > 0);
      }),
      { seed: 51, numRuns: runs(40) },
    );
    expect(some).toBeGreaterThan(share(5));
  });

  test('one new cue by itself: the same, unless choices of the others are in question', async () => {
    let proved = 0;
    await fc.assert(
      fc.asyncProperty(cueOf, cueOf, async (one, two) => {
        const first = { 'cues/1m1.mid': bytesOf(one) };
        const all = { ...first, 'new/1m2.mid': bytesOf(two), 'cues/1m2.mid': bytesOf(two) };
        const before = await plan({ files: disk({ keepset, cues: first }) });
        const after = await plan({ files: disk({ keepset, cues: all }) });
        const files = disk({ keepset, cues: all }, { 'keep.json': toJson(before) });
        const checked = await check({ keep: 'keep.json', cues: ['new/1m2.mid'], files });
        const expected = less(keptIn(only(after)), keptIn(only(before)));
        const found = missed(checked);
        for (const one of found) expect(expected).toContain(one);
        const inQuestion = checked.open.some(
          (code) => code === 'check-choice-new' || code === 'check-choices-gone',
        );
        if (!inQuestion) expect(found).toEqual(expected);
        if (checked.verdict === 'proved') {
          expect(expected.size).toBe(0);
          proved++;
        }
      }),
      { seed: 52, numRuns: runs(60) },
    );
    if (settle === settled && shares === 'machine') expect(proved).toBeGreaterThan(0);
  });

  test('a plan against its own cues: proved, whole or one by one', async () => {
    await fc.assert(
      fc.asyncProperty(cueOf, cueOf, async (one, two) => {
        const cues = { 'cues/1m1.mid': bytesOf(one), 'cues/1m2.mid': bytesOf(two) };
        const files = disk({ keepset, cues });
        const made = await plan({ files });
        const again = disk({ keepset, cues }, { 'keep.json': toJson(made) });
        for (const some of [[], ['cues/1m1.mid'], ['cues/1m2.mid']]) {
          const checked = await check({ keep: 'keep.json', cues: some, files: again });
          expect(checked.misses).toEqual([]);
          expect(checked.total).toEqual({ misses: 0, notes: 0, doubtfulNotes: 0, bytes: 0 });
          expect([checked.verdict, checked.open]).toEqual(['proved', []]);
          expect(checked.proof.cues.map(({ change }) => change)).not.toContain('changed');
        }
      }),
      { seed: 53, numRuns: runs(25) },
    );
  });
});
