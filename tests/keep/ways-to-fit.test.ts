import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { memory } from '../../src/jobs/memory.ts';
import { plan } from '../../src/jobs/plan.ts';
import { preparePlan } from '../../src/jobs/prepare-plan.ts';
import { makePlan, type PlanInput } from '../../src/keep/make-plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { makeReelMemory } from '../../src/keep/reel/make-reel-memory.ts';
import type { ReelMachine, WayToFit } from '../../src/keep/reel/reel-memory.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import type { TemplateInstrument } from '../../src/template/template.ts';
import type { DoubtName } from '../../src/terms/doubt.ts';
import { cueBytes } from '../jobs/midi-cue.ts';
import { inputOf, randomTemplateReel } from './random-template-reel.ts';
import { runs, share } from '../runs.ts';

/** What would make room, each way checked by going it: a plan of what there would be then. */

const machinesOf = (input: PlanInput): readonly ReelMachine[] =>
  makeReelMemory({
    ...{ plan: input, keep: null, order: null, budgets: {}, inGroups: false },
    findings: [],
  }).memory.machines;

const machineOf = ({ machines }: Plan, id: string) => machines.find((one) => one.id === id)!;

const withInstrument = (
  input: PlanInput,
  id: string,
  change: (one: TemplateInstrument) => TemplateInstrument,
): PlanInput => ({
  ...input,
  template: {
    ...input.template,
    instruments: input.template.instruments.map((one) => (one.id === id ? change(one) : one)),
  },
});

const unloading = (
  input: PlanInput,
  id: string,
  unloads: TemplateInstrument['player']['unloads'],
) => withInstrument(input, id, (one) => ({ ...one, player: { ...one.player, unloads } }));

/** What has an answer keeps it. */
const settling = (input: PlanInput, names: readonly DoubtName[]): PlanInput => ({
  ...input,
  template: {
    ...input.template,
    settle: {
      ...Object.fromEntries(names.map((name) => [name, 'plain'])),
      ...input.template.settle,
    },
  },
});

const gone = (input: PlanInput, way: WayToFit): PlanInput => {
  switch (way.kind) {
    case 'settle':
      return settling(input, way.doubts);
    case 'unload-by':
      return unloading(input, way.instrument, way.to);
    // What `trim` writes has the needed samples and no others.
    case 'trim':
      return unloading(input, way.instrument, 'sample');
    case 'move':
      return withInstrument(input, way.instrument, (one) => ({ ...one, machine: way.to }));
  }
};

const expectWay = (input: PlanInput, { id, high, budget }: ReelMachine, way: WayToFit): void => {
  const then = makePlan(gone(input, way));
  expect([way, machineOf(then, id).bytes.high]).toEqual([way, high - way.bytes]);
  expect(way.bytes).toBeGreaterThan(0);
  expect(way.fits).toBe(high - way.bytes <= budget!);
  if (way.kind === 'move') expect(machineOf(then, way.to).fits).not.toBe(false);
};

const ofKind = (ways: readonly WayToFit[], kind: WayToFit['kind']): readonly WayToFit[] =>
  ways.filter((way) => way.kind === kind);

/** First what is enough, the least of it first; then what frees most. */
const expectBestFirst = (ways: readonly WayToFit[]): void => {
  for (const kind of ['settle', 'trim', 'unload-by', 'move'] as const) {
    const own = ofKind(ways, kind);
    const enough = own.filter(({ fits }) => fits).map(({ bytes }) => bytes);
    const others = own.filter(({ fits }) => !fits).map(({ bytes }) => bytes);
    expect(own.map(({ fits }) => fits)).toEqual(own.map((_, i) => i < enough.length));
    expect(enough).toEqual([...enough].sort((a, b) => a - b));
    expect(others).toEqual([...others].sort((a, b) => b - a));
  }
};

const finest = ['articulation', 'layer', 'sample'] as const;

describe('random reels on two machines that are too small', () => {
  const costs = fc.record({
    kind: fc.constantFrom<'soundfont' | 'zone-table'>('soundfont', 'zone-table'),
    accepted: fc.boolean(),
    second: fc.constantFrom('a', 'b'),
    isOneDefinition: fc.boolean(),
    parts: fc.tuple(fc.integer({ min: 30, max: 99 }), fc.integer({ min: 30, max: 250 })),
  });

  test('each way frees what it says, and none that frees something is left out', async () => {
    const seen = { settle: 0, trim: 0, 'unload-by': 0, move: 0, enough: 0 };
    await fc.assert(
      fc.asyncProperty(randomTemplateReel, costs, async (reel, drawn) => {
        // What could not be read needs all, and settling frees nothing of that.
        const cues = reel.cues.map((cue) => ({ ...cue, state: 'read' as const }));
        const made = await inputOf({ ...reel, cues }, asExported);
        const source = { kind: drawn.kind, path: 'x', preset: null, middleC: 4 };
        const dressed: PlanInput = {
          ...made,
          template: {
            ...made.template,
            instruments: made.template.instruments.map((one, i) => ({
              ...one,
              source,
              machine: i === 0 ? 'a' : drawn.second,
              settle: drawn.accepted && i === 0 ? { 'no-switch': 'accept' } : {},
            })),
            machines: ['a', 'b'].map((id) => ({ id, budget: null })),
          },
          instruments: new Map(
            [...made.instruments].map(([id, one]) => [
              id,
              drawn.isOneDefinition ? { ...one, sha256: 'digest' } : one,
            ]),
          ),
        };
        const all = machinesOf(dressed).reduce((sum, { high }) => sum + high, 0);
        const [a, b] = machinesOf(dressed);
        const input: PlanInput = {
          ...dressed,
          template: {
            ...dressed.template,
            machines: [
              { id: 'a', budget: Math.floor((a!.high * drawn.parts[0]) / 100) },
              { id: 'b', budget: Math.floor(((b!.high + all) * drawn.parts[1]) / 200) },
            ],
          },
        };
        for (const machine of machinesOf(input)) {
          if (machine.fits !== false) {
            expect(machine.ways).toEqual([]);
            continue;
          }
          for (const way of machine.ways) {
            expectWay(input, machine, way);
            seen[way.kind]++;
            if (way.fits) seen.enough++;
          }
          expectBestFirst(machine.ways);
          expectAllNamed(input, machine, drawn.kind === 'soundfont');
        }
      }),
      { numRuns: runs(70, 40), seed: 91 },
    );
    for (const [kind, times] of Object.entries(seen)) {
      expect([kind, times > share(2)]).toEqual([kind, true]);
    }
  }, 60_000);

  const expectAllNamed = (input: PlanInput, machine: ReelMachine, isWritable: boolean): void => {
    const freed = (other: PlanInput): number =>
      machine.high - machineOf(makePlan(other), machine.id).bytes.high;
    const open = makePlan(input).doubts.flatMap(({ name }) => (name === 'damage' ? [] : [name]));
    const singles = new Map(open.map((name) => [name, freed(settling(input, [name]))]));
    const enough = (bytes: number): boolean => machine.high - bytes <= machine.budget!;
    const pairs = open.flatMap((one, i) =>
      open.slice(i + 1).flatMap((other) => {
        const bytes = freed(settling(input, [one, other]));
        const [p, q] = [singles.get(one)!, singles.get(other)!];
        const isMore = bytes > p + q || (enough(bytes) && !enough(p) && !enough(q));
        return isMore ? [[one, other].sort().join(' ')] : [];
      }),
    );
    expect(
      ofKind(machine.ways, 'settle')
        .map((way) => (way.kind === 'settle' ? [...way.doubts].sort().join(' ') : ''))
        .sort(),
    ).toEqual([...open.filter((name) => singles.get(name)! > 0), ...pairs].sort());
    const here = input.template.instruments.filter((one) => one.machine === machine.id);
    const named = (kind: WayToFit['kind']): readonly string[] =>
      ofKind(machine.ways, kind)
        .flatMap((way) => ('instrument' in way ? [way.instrument] : []))
        .sort();
    const finer = here.filter(
      ({ id, player: { unloads } }) =>
        unloads !== 'sample' && freed(unloading(input, id, 'sample')) > 0,
    );
    const ids = finer.map(({ id }) => id).sort();
    expect([named('trim'), named('unload-by')]).toEqual(isWritable ? [ids, []] : [[], ids]);
    // The coarsest unit that frees as much: every coarser one frees less.
    for (const way of machine.ways) {
      if (way.kind !== 'unload-by') continue;
      const { unloads } = here.find(({ id }) => id === way.instrument)!.player;
      const from = unloads === 'microphone' || unloads === 'articulation' ? 1 : 0;
      for (const grain of finest.slice(from, finest.indexOf(way.to as 'layer'))) {
        expect(freed(unloading(input, way.instrument, grain))).toBeLessThan(way.bytes);
      }
      expect(freed(unloading(input, way.instrument, 'sample'))).toBe(way.bytes);
    }
    const other = machine.id === 'a' ? 'b' : 'a';
    const movable = here.filter(({ id }) => {
      const moved = withInstrument(input, id, (one) => ({ ...one, machine: other }));
      return freed(moved) > 0 && machineOf(makePlan(moved), other).fits !== false;
    });
    expect(named('move')).toEqual(movable.map(({ id }) => id).sort());
  };
});

/**
 * By hand. Machine a holds: band, the long articulation a b c = 7 000; solo, which never says its
 * articulation, so all three of them a-f = 63 000, and band's are among those; kit all of it, 90 000.
 * Together 153 000, of 150 000.
 */
describe('by hand, and from the text of the files', async () => {
  const band = `key,articulation,switch,keys,velocities,bytes
a,long,24,58-62,1-127,1000
b,long,24,58-62,1-127,2000
c,long,24,63-66,1-127,4000
d,short,25,58-66,1-64,8000
e,short,25,58-66,65-127,16000
f,roll,26,58-60,1-127,32000
`;
  const kit = `key,keys,velocities,bytes
k1,60-60,1-127,10000
k2,61-61,1-64,30000
k3,62-62,65-127,50000
`;
  const keepset = `cues: cues/*.mid
machines: { a: { memory: 150 kB }, b: { memory: 95 kB }, c: { memory: 100 kB } }
players:
  p: { loads: whole, shares: machine, unloads: articulation }
  q: { loads: whole, shares: machine, unloads: instrument }
instruments:
  band: { zones: band.csv, middle-c: C4, player: p, machine: a }
  solo: { zones: band.csv, middle-c: C4, player: p, machine: a }
  kit: { zones: kit.csv, middle-c: C4, player: q, machine: a }
routes:
  - { track: Band, instrument: band }
  - { track: Solo, instrument: solo }
  - { track: Kit, instrument: kit }
`;
  const filesOf = (text: string): MemoryFiles => {
    const note = (key: number, tick: number) => ({ tick, length: 100, key, velocity: 80 });
    return new MemoryFiles({
      'keepset.yaml': text,
      'band.csv': band,
      'kit.csv': kit,
      'cues/1m1.mid': cueBytes([
        { name: 'Band', notes: [note(24, 0), note(60, 480)] },
        { name: 'Solo', notes: [note(60, 480)] },
        { name: 'Kit', notes: [note(60, 480)] },
      ]),
    });
  };
  const { machines } = await memory({ files: filesOf(keepset) });
  const [a, b, c] = machines;

  test('what there is', () => {
    expect(a).toMatchObject({ high: 153_000, budget: 150_000, over: 3_000, fits: false });
    expect([b, c]).toMatchObject([
      { high: 0, ways: [] },
      { high: 0, ways: [] },
    ]);
    expect(a!.ways).toEqual([
      // Then solo holds at most what band does.
      { kind: 'settle', doubts: ['no-switch'], bytes: 56_000, fits: true },
      // d goes, and c would stay: band has it. Layers do as well as samples.
      {
        ...{ kind: 'unload-by', instrument: 'solo', from: 'articulation', to: 'layer' },
        ...{ bytes: 8_000, fits: true },
      },
      // k1 alone is in its layer.
      {
        ...{ kind: 'unload-by', instrument: 'kit', from: 'instrument', to: 'layer' },
        ...{ bytes: 80_000, fits: true },
      },
      // What band has stays; to where more room is left. Band would free nothing: solo has all of it.
      { kind: 'move', instrument: 'solo', to: 'c', bytes: 56_000, fits: true },
      { kind: 'move', instrument: 'kit', to: 'c', bytes: 90_000, fits: true },
    ]);
  });

  const highs = async (text: string, settle = {}): Promise<readonly number[]> =>
    (await plan({ files: filesOf(text), settle })).machines.map(({ bytes }) => bytes.high);

  test('as it is when it is done', async () => {
    expect(await highs(keepset)).toEqual([153_000, 0, 0]);
    expect(await highs(keepset, { 'no-switch': 'plain' })).toEqual([97_000, 0, 0]);
    // Band has one layer of its articulation, so it keeps c.
    expect(await highs(keepset.replace('unloads: articulation', 'unloads: layer'))).toEqual([
      ...[145_000, 0, 0],
    ]);
    expect(await highs(keepset.replace('unloads: instrument', 'unloads: layer'))).toEqual([
      ...[73_000, 0, 0],
    ]);
    const moved = (id: string): string =>
      keepset
        .split('\n')
        .map((line) =>
          line.startsWith(`  ${id}:`) ? line.replace('machine: a', 'machine: c') : line,
        )
        .join('\n');
    expect(await highs(moved('solo'))).toEqual([97_000, 0, 63_000]);
    expect(await highs(moved('kit'))).toEqual([63_000, 0, 90_000]);
  });

  test('a budget that is tried counts', async () => {
    const tried = await memory({ files: filesOf(keepset), budgets: { a: 144_999, c: 89_999 } });
    const ways = tried.machines[0]!.ways;
    expect(ways.map(({ kind, bytes, fits }) => [kind, bytes, fits])).toEqual([
      ['settle', 56_000, true],
      ['unload-by', 80_000, true],
      // One byte too little.
      ['unload-by', 8_000, false],
      ['move', 56_000, true],
      ['move', 90_000, true],
    ]);
    expect(ofKind(ways, 'move').map((way) => way.kind === 'move' && way.to)).toEqual(['b', 'b']);
  });
});

describe('the demo, on machines that are too small', () => {
  test('the best ways of each kind', async () => {
    const files = new MemoryFiles(
      Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes])),
    );
    const { input: prepared } = await preparePlan({ template: 'keepset.yaml', files });
    const input: PlanInput = {
      ...prepared,
      template: {
        ...prepared.template,
        machines: prepared.template.machines.map(({ id }) => ({
          ...{ id, budget: id === 'a' ? 4_400_000_000 : 3_200_000_000 },
        })),
      },
    };
    const [a, b] = machinesOf(input);
    expect([a!.fits, b!.fits]).toEqual([false, false]);
    for (const { ways } of [a!, b!]) expectBestFirst(ways);
    for (const kind of ['settle', 'unload-by'] as const) {
      expectWay(input, a!, ofKind(a!.ways, kind)[0]!);
    }
    // Nothing of a has room on b, which is too small itself.
    expect(ofKind(a!.ways, 'move')).toEqual([]);
    // What is reached through either of two doubts goes only with both.
    const pairs = b!.ways.filter((way) => way.kind === 'settle' && way.doubts.length > 1);
    expect(pairs.length).toBeGreaterThan(0);
    expectWay(input, b!, pairs[0]!);
    for (const way of ofKind(b!.ways, 'move').slice(0, 1)) expectWay(input, b!, way);
  }, 60_000);
});
