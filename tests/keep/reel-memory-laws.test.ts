import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { memory } from '../../src/jobs/memory.ts';
import { plan } from '../../src/jobs/plan.ts';
import { preparePlan } from '../../src/jobs/prepare-plan.ts';
import { makePlan, type PlanInput } from '../../src/keep/make-plan.ts';
import { makeReelMemory, type MadeReelMemory } from '../../src/keep/reel/make-reel-memory.ts';
import type { Need } from '../../src/memory/reel/need.ts';
import type { ZoneMask } from '../../src/memory/zone-mask.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { cueBytes, type CueNote, type CueTrack } from '../jobs/midi-cue.ts';
import { inputOf, randomTemplateReel } from './random-template-reel.ts';
import { runs, share } from '../runs.ts';

/** Laws of a reel's memory over what the cues really play. */

const made = (input: PlanInput): MadeReelMemory =>
  makeReelMemory({
    ...{ plan: input, keep: null, order: null, budgets: {}, inGroups: false },
    findings: [],
  });

const masksOf = (need: Need): readonly ZoneMask[] =>
  need.kind === 'shared' ? [need.zones] : [...need.copies.values()];

const zonesOf = (mask: ZoneMask): readonly number[] =>
  [...mask.keys()].filter((zone) => mask[zone] === 1);

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

/** What all cues need together is what a plan keeps. */
const expectAsPlanned = (input: PlanInput, { memory: found }: MadeReelMemory): void => {
  const planned = makePlan(input);
  expect(
    found.machines.map(({ id, full, bytes, low, high }) => ({ id, full, kept: bytes, low, high })),
  ).toEqual(planned.machines.map(({ id, bytes }) => ({ id, ...bytes })));
  expect(
    found.instruments.map(({ id, full, bytes, low, high, basis }) => ({
      ...{ id, full, kept: bytes, low, high, basis },
    })),
  ).toEqual(
    planned.instruments.map(({ id, bytes: { full, kept, low, high, basis } }) => ({
      ...{ id, full, kept, low, high, basis },
    })),
  );
  expect(found.total).toMatchObject({
    bytes: planned.total.bytes.kept,
    full: planned.total.bytes.full,
  });
};

/** As far as figures are computed. */
const expectChangesToAddUp = ({ memory: { cues } }: MadeReelMemory, ids: ReadonlySet<string>) => {
  cues.slice(1).forEach((cue, before) => {
    for (const one of cue.instruments) {
      if (!ids.has(one.id)) continue;
      const was = cues[before]!.instruments.find(({ id }) => id === one.id)?.bytes ?? 0;
      expect(was + one.load).toBe(one.bytes + one.mayGo);
    }
  });
};

const costs = fc.record({
  perZone: fc.constantFrom(0, 0, 3),
  perCopy: fc.constantFrom(0, 1_000),
  headroom: fc.constantFrom(0, 3),
  isOneDefinition: fc.boolean(),
  second: fc.constantFrom('a', 'b'),
});
type Costs = typeof costs extends fc.Arbitrary<infer One> ? One : never;

const dressed = (
  input: PlanInput,
  { perZone, perCopy, headroom, isOneDefinition, second }: Costs,
): PlanInput => ({
  ...input,
  template: {
    ...input.template,
    machines: ['a', 'b'].map((id) => ({ id, budget: null })),
    headroom: { keys: headroom, velocity: 0, controller: 0 },
    instruments: input.template.instruments.map((one, i) => ({
      ...one,
      machine: i === 0 ? 'a' : second,
      player: { ...one.player, perZone, perCopy },
    })),
  },
  instruments: new Map(
    [...input.instruments].map(([id, one]) => [
      id,
      isOneDefinition ? { ...one, sha256: 'digest' } : one,
    ]),
  ),
});

/** Calls `check` on many reels. */
const onReels = (
  seed: number,
  check: (input: PlanInput, found: MadeReelMemory, drawn: Costs) => void,
): Promise<void> =>
  fc.assert(
    fc.asyncProperty(randomTemplateReel, costs, async (reel, drawn) => {
      const input = dressed(await inputOf(reel, asExported), drawn);
      check(input, made(input), drawn);
    }),
    { numRuns: runs(45), seed },
  );

describe('random reels', () => {
  test('all cues together need what a plan keeps', async () => {
    await onReels(81, (input, found) => {
      expectAsPlanned(input, found);
      const planned = makePlan(input);
      found.loads.members.forEach(({ instrument: { id } }, m) => {
        const need = found.loads.need(m, found.whole);
        const { copies, shares, kept } = planned.instruments[m]!;
        expect(planned.instruments[m]!.id).toBe(id);
        if (shares === 'machine' || copies.length === 0) return;
        const held = copies.filter((copy) => copy.zonesKept > copy.muted.length);
        expect(need.kind === 'own' && [...need.copies.keys()].sort()).toEqual(
          held.map(({ name }) => name).sort(),
        );
        expect(
          masksOf(need).length > 0 || kept.every(({ reasons }) => reasons.includes('mutes')),
        ).toBe(true);
      });
    });
  });

  test('the reel is never below a cue, and above their sum only where copies hold zones in common', async () => {
    const seen = { below: 0, peak: 0 };
    await onReels(82, ({ template }, { memory: { cues, machines, total, instruments } }, drawn) => {
      const mayGrow = drawn.perZone > 0 && template.instruments[0]!.player.shares === 'machine';
      const check = (all: number, each: readonly number[]): void => {
        expect(all).toBeGreaterThanOrEqual(Math.max(...each));
        if (!mayGrow) expect(all).toBeLessThanOrEqual(sum(each));
        if (all < sum(each)) seen.below++;
      };
      check(
        total.bytes,
        cues.map(({ bytes }) => bytes),
      );
      machines.forEach((machine, m) => {
        const each = cues.map((cue) => cue.machines[m]!.bytes);
        check(machine.bytes, each);
        // The first of equals.
        const at = each.indexOf(Math.max(...each));
        expect(machine.peak).toMatchObject({ cue: cues[at]!.id, bytes: each[at] });
        if (at > 0) seen.peak++;
      });
      for (const { id, bytes, peak, cues: needing } of instruments) {
        const each = cues.map((cue) => cue.instruments.find((one) => one.id === id)?.bytes ?? 0);
        check(bytes, each);
        expect({ peak, needing }).toEqual({
          peak: Math.max(...each),
          needing: each.filter((one) => one > 0).length,
        });
      }
    });
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(share(10));
  });

  test('what was there and what is loaded is what is there then and what may go', async () => {
    await onReels(83, (_, found) => {
      expectChangesToAddUp(found, new Set(['i0', 'i1']));
      found.memory.cues.slice(1).forEach((cue, before) => {
        const last = found.memory.cues[before]!;
        expect(last.bytes + cue.load).toBe(cue.bytes + cue.mayGo);
        cue.machines.forEach(({ bytes, load, mayGo }, m) => {
          expect(last.machines[m]!.bytes + load).toBe(bytes + mayGo);
        });
      });
    });
  });

  test('a damaged cue needs all of the instruments that it may have played', async () => {
    let seen = 0;
    await onReels(84, ({ files }, { loads }) => {
      files.forEach(({ tainted }, cue) => {
        for (const id of tainted) {
          const m = loads.members.findIndex(({ instrument }) => instrument.id === id);
          const need = loads.need(m, loads.cue(cue));
          const masks = masksOf(need);
          expect(masks.length).toBeGreaterThan(0);
          for (const mask of masks) expect(mask).not.toContain(0);
          // Any copy that the reel knows may have been the one that played.
          const copies = files.flatMap((file) =>
            file.copies.filter(({ instrument }) => instrument === id),
          );
          const known = new Set(copies.map(({ copy }) => copy));
          const playing = new Set(
            copies.flatMap(({ copy, notes, damaged }) => (notes > 0 || damaged ? [copy] : [])),
          );
          if (need.kind === 'shared') expect(need.copies).toEqual(playing);
          else expect(need.copies.size).toBe(Math.max(1, known.size));
          seen++;
        }
      });
    });
    expect(seen).toBeGreaterThan(share(20));
  });

  test('pins are in every cue', async () => {
    let seen = 0;
    await onReels(85, (input, { loads }) => {
      const pinned = makePlan({ ...input, files: [] }).instruments[0]!.kept.map(({ zone }) => zone);
      if (pinned.length === 0) return;
      const [member] = loads.members;
      const playing = new Set(
        input.files.flatMap(({ copies }) =>
          copies.flatMap(({ instrument, copy, notes, damaged }) =>
            instrument === 'i0' && (notes > 0 || damaged) ? [copy] : [],
          ),
        ),
      );
      input.files.forEach((_, cue) => {
        const need = loads.need(0, loads.cue(cue));
        const held = (mask: ZoneMask) => zonesOf(mask).map((z) => member!.instrument.zones[z]!.id);
        if (need.kind === 'shared') {
          expect(held(need.zones)).toEqual(expect.arrayContaining(pinned));
        } else {
          const names = playing.size > 0 ? [...playing] : [...need.copies.keys()].slice(0, 1);
          expect(names.length).toBeGreaterThan(0);
          for (const name of names) {
            expect(held(need.copies.get(name)!)).toEqual(expect.arrayContaining(pinned));
          }
        }
        seen++;
      });
    });
    expect(seen).toBeGreaterThan(share(10));
  });
});

const table = `key,articulation,switch,keys,velocities,microphone,bytes
a,long,24,58-62,1-127,near,1000
b,long,24,58-62,1-127,far,2000
c,long,24,63-66,1-127,near,4000
d,short,25,58-66,1-64,near,8000
e,short,25,58-66,65-127,near,16000
f,roll,26,58-60,1-127,far,32000
g,,,58-60,100-127,near,64000
`;

const bandOf = (more: string): string => `cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
${more}
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes: [{ track: '*', instrument: band }]
`;

const filesOf = (keepset: string, cues: Readonly<Record<string, readonly CueTrack[]>>) =>
  new MemoryFiles({
    'keepset.yaml': keepset,
    'band.csv': table,
    ...Object.fromEntries(
      Object.entries(cues).map(([id, tracks]) => [`cues/${id}.mid`, cueBytes(tracks)]),
    ),
  });

describe('cue by cue', () => {
  /** A part that says its switch itself before its first note. */
  const phrase = fc
    .tuple(
      fc.constantFrom(24, 25, 26),
      fc.array(
        fc.record({
          tick: fc.integer({ min: 20, max: 400 }),
          length: fc.integer({ min: 1, max: 60 }),
          key: fc.oneof(fc.constantFrom(24, 25, 26), fc.integer({ min: 57, max: 67 })),
          velocity: fc.integer({ min: 1, max: 127 }),
        }),
        { minLength: 1, maxLength: 5 },
      ),
    )
    .map(([key, notes]): readonly CueNote[] => [
      { tick: 0, length: 5, key, velocity: 90 },
      ...notes,
    ]);
  const tracks = fc
    .record({ One: phrase, Two: phrase }, { requiredKeys: [] })
    .map((parts): readonly CueTrack[] => [
      { name: 'Empty', notes: [] },
      ...Object.entries(parts).map(([name, notes]) => ({ name, notes })),
    ]);

  test('each needs what a plan of it alone keeps, where copies choose before they play', async () => {
    let several = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom('machine', 'copy'),
        fc.constantFrom('sample', 'layer', 'articulation', 'microphone', 'instrument'),
        fc.constantFrom('', 'headroom: { keys: 2, velocity: 20 }'),
        fc.boolean(),
        fc.array(tracks, { minLength: 2, maxLength: 4 }),
        async (shares, unloads, headroom, isPinned, list) => {
          // Of copies apart, a plan of one cue pins only those that play in it.
          const pins = isPinned && shares === 'machine';
          const keepset = bandOf(
            [
              `players: { p: { loads: whole, shares: ${shares}, unloads: ${unloads}, per-copy: 500 B, per-zone: 3 B } }`,
              headroom,
              pins ? 'pins: [{ instrument: band, articulation: roll }]' : '',
            ].join('\n'),
          );
          const cues = Object.fromEntries(
            list.map((own, i) => [`1m${String(i + 1)}`, own] as const),
          );
          const found = await memory({ files: filesOf(keepset, cues) });
          expect(found.cues).toHaveLength(list.length);
          for (const { id, machines, instruments } of found.cues) {
            const alone = await plan({ files: filesOf(keepset, { [id]: cues[id]! }) });
            const [band] = alone.instruments;
            const { kept, low, high } = alone.machines[0]!.bytes;
            expect(machines).toMatchObject([{ bytes: kept, low, high }]);
            expect(instruments.flatMap(({ zones }) => (zones > 0 ? [zones] : []))).toEqual(
              band!.zonesKept === 0 ? [] : [band!.zonesKept],
            );
            if (band!.zonesKept > 0) several++;
          }
        },
      ),
      { numRuns: runs(40), seed: 86 },
    );
    expect(several).toBeGreaterThan(share(60));
  });

  const note = (key: number, tick: number): CueNote => ({ tick, length: 100, key, velocity: 80 });

  test('what a copy chooses anywhere in the reel is what it may open with', async () => {
    const files = filesOf(
      bandOf('players: { p: { loads: whole, shares: machine, unloads: sample } }'),
      {
        '1m1': [
          { name: 'Band', notes: [note(24, 0), note(64, 480), note(25, 960), note(64, 1_440)] },
        ],
        '1m2': [{ name: 'Band', notes: [note(60, 480)] }],
      },
    );
    const { cues } = await memory({ files });
    // 1m1: c and e. 1m2: long a b, short e; never f: nothing of the reel chooses the roll.
    expect(cues.map(({ bytes }) => bytes)).toEqual([20_000, 19_000]);
    const alone = await memory({ files, cues: ['cues/1m2.mid'] });
    // Nobody chose anything: all of key 60 but what is louder.
    expect(alone.cues.map(({ bytes }) => bytes)).toEqual([51_000]);
  });
});

describe('the demo', () => {
  let input: PlanInput;
  let found: MadeReelMemory;
  beforeAll(async () => {
    const files = new MemoryFiles(
      Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes])),
    );
    ({ input } = await preparePlan({ template: 'keepset.yaml', files }));
    found = made(input);
  }, 120_000);

  test('all cues together need what a plan keeps', () => {
    expectAsPlanned(input, found);
  });

  test('changes add up, where figures are computed', () => {
    const { instruments } = found.memory;
    const computed = instruments.filter(({ basis }) => basis === 'computed').map(({ id }) => id);
    expect(computed.length).toBeGreaterThan(10);
    expectChangesToAddUp(found, new Set(computed));
  });

  test('no computed instrument is below any of its cues', () => {
    for (const { id, bytes, basis, peak } of found.memory.instruments) {
      if (basis === 'computed') expect([id, bytes >= peak]).toEqual([id, true]);
    }
  });

  test('the pinned stroke of the timpani is in every cue', () => {
    const pinned = makePlan({ ...input, files: [] }).instruments.find(
      ({ id }) => id === 'timpani',
    )!;
    expect(pinned.zonesKept).toBeGreaterThan(0);
    const { cues } = found.memory;
    expect(cues.length).toBeGreaterThan(5);
    for (const { instruments } of cues) {
      const one = instruments.find(({ id }) => id === 'timpani');
      expect(one?.zones).toBeGreaterThanOrEqual(pinned.zonesKept);
    }
  });
});
