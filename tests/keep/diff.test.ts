import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { diff, type DiffOptions } from '../../src/jobs/diff.ts';
import type { Amount, Diff, DiffAmounts } from '../../src/keep/compare/diff.ts';
import { makeDiff } from '../../src/keep/compare/make-diff.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { InputError, TemplateError } from '../../src/terms/errors.ts';
import {
  filesOf,
  keepFile,
  perCopy,
  perZone,
  planOf,
  reel,
  rig,
  sampleBytes,
  statesOf,
  type Rig,
} from './random-reels.ts';

/** Laws of diffs, on plans that the engine makes of small random tables and reels. */

const ids = ['one', 'twin', 'other'] as const;

type Named = Omit<DiffOptions, 'from' | 'to' | 'files'>;

/** The diff of two plans, with the instruments of a rig at hand, or with nothing. */
const diffOf = (from: Plan, to: Plan, here: Rig | null, named: Named = {}): Promise<Diff> =>
  diff({
    from: 'keep.json',
    to: 'keep-2.json',
    ...named,
    files: new MemoryFiles({
      ...(here === null ? {} : filesOf(here, [])),
      'keep.json': keepFile(from),
      'keep-2.json': keepFile(to),
    }),
  });

const instrumentOf = (of: Plan, id: string) => of.instruments.find((one) => one.id === id);

const isApart = (from: Plan, to: Plan, id: string): boolean =>
  [from, to].some((one) => instrumentOf(one, id)?.shares === 'copy');

const none: Amount = { zones: 0, samples: 0, bytes: 0 };

/** A rig and two reels; the second may be on a template in which one instrument has moved. */
const pairs = fc.record({
  before: rig,
  home: fc.constantFrom('a' as const, 'b' as const),
  one: reel,
  two: reel,
});

const settings = { seed: 51, numRuns: 50 };

interface Case {
  readonly before: Rig;
  readonly after: Rig;
  readonly from: Plan;
  readonly to: Plan;
}

const forAll = (property: (one: Case) => Promise<void>): Promise<void> =>
  fc.assert(
    fc.asyncProperty(pairs, async ({ before, home, one, two }) => {
      const after = { ...before, home };
      const [from, to] = [await planOf(before, one), await planOf(after, two)];
      await property({ before, after, from, to });
    }),
    settings,
  );

describe('laws', () => {
  test('of one file twice nothing is to do, with the instruments or without', async () => {
    await forAll(async ({ before, from }) => {
      for (const here of [before, null]) {
        const { total, instruments, machines, findings } = await diffOf(from, from, here);
        expect(findings).toEqual([]);
        for (const one of [total, ...instruments, ...machines]) {
          expect(one).toMatchObject({ load: none, unload: none });
        }
        expect(instruments.flatMap(({ copies }) => copies)).toEqual([]);
        expect(total.unchanged.bytes).toBe(from.total.bytes.kept);
      }
    });
  });

  test('the zones of A, less those to unload, and those to load are the zones of B, copy by copy', async () => {
    await forAll(async ({ after, from, to }) => {
      for (const here of [after, null]) {
        const { instruments } = await diffOf(from, to, here);
        expect(instruments.map(({ id }) => id)).toEqual([...ids]);
        for (const one of instruments) {
          const apart = isApart(from, to, one.id);
          const [a, b] = [from, to].map((of) => statesOf(instrumentOf(of, one.id), apart));
          const moved = one.machine.from !== one.machine.to;
          for (const name of new Set([...a!.keys(), ...b!.keys()])) {
            const copy = one.copies.find((each) => each.name === name);
            const load = new Set(copy?.load.map(({ zone }) => zone));
            const unload = new Set(copy?.unload.map(({ zone }) => zone));
            const [had, has] = [a, b].map((state) => state!.get(name)?.zones ?? new Set<number>());
            for (const zone of unload) expect(had).toContain(zone);
            if (!moved) for (const zone of load) expect(had).not.toContain(zone);
            const result = [...had!].filter((zone) => !unload.has(zone)).concat(...load);
            expect(new Set(result)).toEqual(has);
            if (moved) expect(unload).toEqual(had);
          }
          const names = one.copies.map(({ name }) => name);
          expect(names.every((name) => a!.has(name) || b!.has(name))).toBe(true);
        }
      }
    });
  });

  test('backwards it is the mirror', async () => {
    const mirrored = ({ load, unload, unchanged }: DiffAmounts): DiffAmounts => ({
      load: unload,
      unload: load,
      unchanged,
    });
    await forAll(async ({ before, after, from, to }) => {
      const there = await diffOf(from, to, after);
      const back = await diffOf(to, from, before);
      expect(back.total).toEqual(mirrored(there.total));
      for (const one of there.instruments) {
        const other = back.instruments.find(({ id }) => id === one.id)!;
        expect(other).toMatchObject(mirrored(one));
        expect(other.machine).toEqual({ from: one.machine.to, to: one.machine.from });
        expect(new Set(other.copies)).toEqual(
          new Set(
            one.copies.map(({ name, load, unload }) => ({ name, load: unload, unload: load })),
          ),
        );
        expect(other.copiesLoaded).toEqual(one.copiesUnloaded);
        expect(other.copiesUnloaded).toEqual(one.copiesLoaded);
      }
      for (const one of there.machines) {
        const other = back.machines.find(({ id }) => id === one.id)!;
        expect(other).toMatchObject(mirrored(one));
        expect(other.kept).toEqual({ from: one.kept.to, to: one.kept.from });
      }
    });
  });

  test('zones, samples and bytes add up with both files', async () => {
    await forAll(async ({ after, from, to }) => {
      const result = await diffOf(from, to, after);
      for (const [side, of, changing] of [
        ['from', from, 'unload'],
        ['to', to, 'load'],
      ] as const) {
        for (const one of result.instruments) {
          const its = instrumentOf(of, one.id)!;
          const isOwn = its.shares === 'copy' && its.copies.length > 0;
          const zones = isOwn
            ? its.copies.reduce((sum, { zonesKept }) => sum + zonesKept, 0)
            : its.zonesKept;
          expect(one[changing].zones + one.unchanged.zones).toBe(zones);
          if (!isOwn) {
            expect(one[changing].samples + one.unchanged.samples).toBe(its.samplesKept);
          }
          expect(one[changing].bytes! + one.unchanged.bytes!).toBe(its.bytes.kept);
        }
        for (const one of result.machines) {
          const its = of.machines.find(({ id }) => id === one.id)!;
          expect(one.kept[side]).toBe(its.bytes.kept);
          expect(one[changing].bytes! + one.unchanged.bytes!).toBe(its.bytes.kept);
        }
        const { total } = result;
        expect(total[changing].bytes! + total.unchanged.bytes!).toBe(of.total.bytes.kept);
        if (of.instruments.every(({ shares }) => shares === 'machine')) {
          expect(total[changing].samples + total.unchanged.samples).toBe(of.total.samplesKept);
        }
      }
    });
  });

  test('what stays takes what a naive model says, and loading is listed where bytes are', async () => {
    let some = 0;
    await forAll(async ({ after, from, to }) => {
      const result = await diffOf(from, to, after);
      for (const machine of result.machines) {
        const staying = ids.flatMap((id) => {
          const [one, two] = [instrumentOf(from, id)!, instrumentOf(to, id)!];
          if (one.machine !== machine.id || two.machine !== machine.id) return [];
          const [a, b] = [one, two].map((each) => statesOf(each, false));
          const samples = new Map(two.kept.map((each) => [each.zone, each.samples]));
          const copies = [...b!].map(([name, { zones, count }]) => {
            const had = a!.get(name) ?? { zones: new Set<number>(), count: 0 };
            return {
              count: Math.min(count, had.count),
              zones: [...zones].filter((zone) => had.zones.has(zone)),
            };
          });
          return [{ id, shares: two.shares, samples, copies }];
        });
        /** Samples that are held, by who holds them: those of one table on one machine together. */
        const held = new Map<string, Set<string>>();
        let bytes = 0;
        for (const { id, shares, samples, copies } of staying) {
          copies.forEach(({ zones, count }, i) => {
            if (zones.length === 0) return;
            bytes += count * (perCopy + perZone * zones.length);
            const holder =
              shares === 'copy' ? `${id} ${String(i)}` : id === 'other' ? 'other.csv' : 'one.csv';
            const names = held.get(holder) ?? new Set();
            held.set(holder, names);
            for (const zone of zones) for (const name of samples.get(zone)!) names.add(name);
          });
        }
        for (const names of held.values()) {
          for (const name of names) bytes += sampleBytes[name]!;
        }
        expect(machine.unchanged.bytes).toBe(bytes);
        if (bytes > 0 && machine.load.zones > 0) some++;
      }
    });
    // Not only trivial ones.
    expect(some).toBeGreaterThan(12);
  });

  test('without the instruments it says so, and zones are the same', async () => {
    let unknown = 0;
    await forAll(async ({ after, from, to }) => {
      const known = await diffOf(from, to, after);
      const result = await diffOf(from, to, null);
      const zonesOnly = ({ load, unload, unchanged }: DiffAmounts) => [
        [load.zones, load.samples],
        [unload.zones, unload.samples],
        [unchanged.zones, unchanged.samples],
      ];
      expect(zonesOnly(result.total)).toEqual(zonesOnly(known.total));
      const codes = result.findings.map(({ code }) => code);
      const isNull = [...result.instruments, ...result.machines].some(
        ({ load }) => load.bytes === null,
      );
      expect(codes.includes('diff-without-bytes')).toBe(isNull);
      if (isNull) unknown++;
      // A figure that is there is the right one.
      result.instruments.forEach((one, i) => {
        if (one.load.bytes !== null) expect(one).toMatchObject(amounts(known.instruments[i]!));
      });
      result.machines.forEach((one, i) => {
        if (one.load.bytes !== null) expect(one).toMatchObject(amounts(known.machines[i]!));
      });
    });
    expect(unknown).toBeGreaterThan(12);
  });
});

const amounts = ({ load, unload, unchanged }: DiffAmounts): DiffAmounts => ({
  load,
  unload,
  unchanged,
});

const line = (name: string, ...keys: readonly number[]) => ({
  name,
  notes: keys.map((key, i) => ({ tick: i * 100, length: 50, key, velocity: 80 })),
});

const small: Rig = {
  tables: [
    `key,articulation,keys,velocities,sample,bytes
low,long,58-60,1-127,s0.wav,1000
mid,long,61-63,1-127,s1.wav,2000
high,short,64-66,1-127,s2.wav,4000
`,
    `key,articulation,keys,velocities,sample,bytes
soft,long,58-66,1-64,s3.wav,8000
loud,short,58-66,65-127,s4.wav,16000
`,
  ],
  shares: 'machine',
  unloads: 'sample',
  home: 'b',
  pinned: false,
};

const written = filesOf(small, [])['keepset.yaml']!.toString();

/** The template with one instrument under another name. */
const renamed = written.replace('  one:', '  uno:').replace('instrument: one', 'instrument: uno');

describe('by hand', () => {
  test('one zone goes and one comes: bytes, samples, places', async () => {
    const from = await planOf(small, [line('One 1', 58, 61)]);
    const to = await planOf(small, [line('One 1', 61, 64)]);
    const { instruments, machines, total } = await diffOf(from, to, small);
    const [one] = instruments;
    expect(one).toEqual({
      id: 'one',
      source: 'one.csv',
      machine: { from: 'a', to: 'a' },
      definition: 'same',
      copiesLoaded: [],
      copiesUnloaded: [],
      copies: [
        {
          name: null,
          load: [
            {
              zone: 2,
              key: 'high',
              samples: ['s2.wav'],
              articulations: ['short'],
              place: { keys: [[64, 66]], velocities: [1, 127], controllers: [] },
            },
          ],
          unload: [
            {
              zone: 0,
              key: 'low',
              samples: ['s0.wav'],
              articulations: ['long'],
              place: { keys: [[58, 60]], velocities: [1, 127], controllers: [] },
            },
          ],
        },
      ],
      // A zone and its sample each way; the copy and the zone between them stay.
      load: { zones: 1, samples: 1, bytes: 4_000 + perZone },
      unload: { zones: 1, samples: 1, bytes: 1_000 + perZone },
      unchanged: { zones: 1, samples: 1, bytes: 2_000 + perZone + perCopy },
    });
    expect(machines[0]).toMatchObject(amounts(one!));
    expect(total).toEqual(amounts(one!));
  });

  test('a second copy of the same zones takes what a copy takes by itself', async () => {
    const from = await planOf(small, [line('One 1', 58)]);
    const to = await planOf(small, [line('One 1', 58), line('One 2', 58)]);
    const [one] = (await diffOf(from, to, small)).instruments;
    expect(one).toMatchObject({
      copies: [],
      copiesLoaded: ['One 2'],
      load: { zones: 0, samples: 0, bytes: perCopy + perZone },
      unload: none,
    });
  });

  test('an instrument that moved is unloaded there and loaded here', async () => {
    const tracks = [line('Other 1', 58)];
    const from = await planOf(small, tracks);
    const to = await planOf({ ...small, home: 'a' }, tracks);
    const { machines, findings, total } = await diffOf(from, to, null);
    const bytes = 16_000 + perZone + perCopy;
    const all = { zones: 1, samples: 1, bytes };
    expect(machines.map((one) => [one.id, amounts(one)])).toEqual([
      ['a', { load: all, unload: none, unchanged: none }],
      ['b', { load: none, unload: all, unchanged: none }],
    ]);
    expect(total).toEqual({ load: all, unload: all, unchanged: none });
    expect(findings.map(({ code }) => code)).toEqual(['diff-templates-differ']);
  });

  test('of two definitions all is unloaded and loaded, and the files tell the bytes', async () => {
    const tracks = [line('Other 1', 58)];
    const from = await planOf(small, tracks);
    const [first, second] = small.tables;
    const changed: Rig = { ...small, tables: [first, `${second}more,long,70-71,,s5.wav,32000\n`] };
    const to = await planOf(changed, tracks);
    const { instruments } = await diffOf(from, to, changed);
    const all = { zones: 1, samples: 1, bytes: 16_000 + perZone + perCopy };
    expect(instruments[2]).toMatchObject({
      definition: 'changed',
      load: all,
      unload: all,
      unchanged: none,
    });
    const [copy] = instruments[2]!.copies;
    expect(copy!.load[0]!.place).not.toBeNull();
    expect(copy!.unload[0]!.place).toBeNull();
  });

  test('copies of a player that came to hold their own are set against each other by name', async () => {
    const from = await planOf(small, [line('One 1', 58), line('One 2', 61)]);
    const apart: Rig = { ...small, shares: 'copy' };
    const to = await planOf(apart, [line('One 1', 58), line('One 2', 61)]);
    const { instruments, findings } = await diffOf(from, to, apart);
    expect(
      instruments[0]!.copies.map(({ name, load, unload }) => [
        name,
        load.map(({ key }) => key),
        unload.map(({ key }) => key),
      ]),
    ).toEqual([
      ['One 1', [], ['mid']],
      ['One 2', [], ['low']],
    ]);
    expect(instruments[0]!.load.bytes).toBeNull();
    expect(findings.find(({ code }) => code === 'diff-without-bytes')?.args).toEqual({
      reason: 'figures',
      instruments: ['one'],
    });
  });

  test.each([
    ['no-template', {}],
    ['template', { 'keepset.yaml': 'instruments: [' }],
    ['unlisted', { 'keepset.yaml': renamed }],
    ['unreadable', { ...filesOf(small, []), 'one.csv': 'nothing' }],
    ['changed', { ...filesOf(small, []), 'one.csv': `${small.tables[0]}\n` }],
    [
      'figures',
      {
        ...filesOf(small, []),
        'keepset.yaml': written.replace('500000', '7'),
      },
    ],
  ])('no bytes: %s', async (reason, here) => {
    const from = await planOf(small, [line('One 1', 58, 61)]);
    const to = await planOf(small, [line('One 1', 61, 64)]);
    const files = new MemoryFiles({
      ...here,
      'keep.json': keepFile(from),
      'keep-2.json': keepFile(to),
    });
    const result = await diff({ from: 'keep.json', to: 'keep-2.json', files });
    expect(result.findings).toEqual([
      expect.objectContaining({
        code: 'diff-without-bytes',
        severity: 'warning',
        args: { reason, instruments: ['one'] },
      }),
    ]);
    expect(result.total).toEqual({
      load: { zones: 1, samples: 1, bytes: null },
      unload: { zones: 1, samples: 1, bytes: null },
      unchanged: { zones: 1, samples: 1, bytes: null },
    });
    expect(result.machines.map(({ load }) => load.bytes)).toEqual([null, 0]);
  });

  test('a template that was named has to be there and sound', async () => {
    const from = await planOf(small, [line('One 1', 58)]);
    const files = new MemoryFiles({ 'keep.json': keepFile(from), 'odd.yaml': 'instruments: [' });
    const named = (template: string) =>
      diff({ from: 'keep.json', to: 'keep.json', template, files });
    await expect(named('odd.yaml')).rejects.toThrow(TemplateError);
    await expect(named('none.yaml')).rejects.toThrow(InputError);
  });

  test('what stays only to stop others has nothing to load', async () => {
    const from = await planOf(small, [line('One 1', 58, 61)]);
    const one = from.instruments[0]!;
    const muted: Plan = {
      ...from,
      instruments: from.instruments.with(0, {
        ...one,
        samplesKept: 1,
        kept: one.kept.map((zone, i) =>
          i === 0 ? { ...zone, reasons: ['mutes'], samples: [], bytes: 0 } : zone,
        ),
      }),
    };
    const nowhere = { atHand: new Map(), absent: new Map() };
    const file = (of: Plan) => ({ path: 'keep.json', sha256: '', plan: of });
    const there = makeDiff(file(from), file(muted), nowhere);
    expect(there.instruments[0]!.copies[0]).toMatchObject({
      load: [],
      unload: [{ key: 'low', samples: ['s0.wav'] }],
    });
    const back = makeDiff(file(muted), file(from), nowhere);
    expect(back.instruments[0]!.copies[0]).toMatchObject({ load: [{ key: 'low' }], unload: [] });
  });
});
