import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import { makePlan, type PlanInput } from '../../src/keep/make-plan.ts';
import type { Plan, PlanRare } from '../../src/keep/plan.ts';
import { reachedClasses } from '../../src/keep/reach.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { doubtNames, doubtSet } from '../../src/terms/doubt.ts';
import { cueBytes, type CueNote } from '../jobs/midi-cue.ts';
import { inputOf, randomTemplateReel } from './random-template-reel.ts';

/** What few notes reach: by hand, and against plans of instruments that lack just that. */
const note = (tick: number, key: number, velocity = 80): CueNote => ({
  tick,
  length: 60,
  key,
  velocity,
});

interface Session {
  readonly table: string;
  readonly player?: string;
  readonly more?: string;
  readonly cues: Readonly<Record<string, readonly (readonly CueNote[])[]>>;
  readonly options?: PlanOptions;
}

const rareOf = async (fewerThan: number, session: Session): Promise<PlanRare> => {
  const {
    table,
    player = 'shares: machine, unloads: sample',
    more = '',
    cues,
    options = {},
  } = session;
  const files = new MemoryFiles({
    'keepset.yaml': `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, ${player} } }
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes: [{ track: '*', instrument: band }]
${more}`,
    'band.csv': table,
    ...Object.fromEntries(
      Object.entries(cues).map(([name, tracks]) => [
        `cues/${name}.mid`,
        cueBytes(tracks.map((notes, i) => ({ name: `Part ${String(i + 1)}`, notes }))),
      ]),
    ),
  });
  return (await plan({ files, rare: fewerThan, ...options })).rare!;
};

/** Zones, notes and bytes of each entry. */
const entries = ({ units }: PlanRare): readonly (readonly [readonly number[], number, number])[] =>
  units.map(({ zones, notes, bytes }) => [zones, notes, bytes]);

const threeKeys = 'keys,bytes\n60-60,1000\n61-61,20000\n62-62,300000\n';

describe('by hand', () => {
  const cues = {
    '1m1': [[note(0, 60), note(480, 60), note(960, 61), note(1440, 62)]],
    '1m2': [[note(480, 61, 33)]],
  };

  test('zones by the bytes they free, with notes, cues and places', async () => {
    const rare = await rareOf(3, { table: threeKeys, cues });
    expect(entries(rare)).toEqual([
      [[2], 1, 300_000],
      [[1], 2, 20_000],
      [[0], 2, 1_000],
    ]);
    expect(rare).toMatchObject({ fewerThan: 3, bytes: 321_000 });
    expect(rare.units[1]).toMatchObject({
      ...{ instrument: 'band', machine: 'a', copy: null, samples: 1 },
      cues: { '1m1': 1, '1m2': 1 },
      witnesses: [
        { cue: '1m1', bar: 1, beat: 3, key: 61, velocity: 80 },
        { cue: '1m2', bar: 1, beat: 2, key: 61, velocity: 33 },
      ],
    });
    expect(entries(await rareOf(2, { table: threeKeys, cues }))).toEqual([[[2], 1, 300_000]]);
    expect(await rareOf(1, { table: threeKeys, cues })).toEqual({
      ...{ fewerThan: 1, units: [], bytes: 0 },
    });
  });

  test('more notes than a class names places are counted one by one', async () => {
    const notes = Array.from({ length: 7 }, (_, i) => note(480 * i, 62));
    const seven = { table: threeKeys, cues: { '1m1': [notes] } };
    expect(entries(await rareOf(8, seven))).toEqual([[[2], 7, 300_000]]);
    expect(entries(await rareOf(7, seven))).toEqual([]);
  });

  test('a pin settles it', async () => {
    const options = { pins: ['band'] };
    expect(entries(await rareOf(3, { table: threeKeys, cues, options }))).toEqual([]);
  });

  test('what headroom alone keeps is no candidate', async () => {
    const some = { '1m1': [[note(0, 60), note(480, 60), note(960, 60)]] };
    const options = { headroom: { keys: 1 } };
    expect(entries(await rareOf(3, { table: threeKeys, cues: some, options }))).toEqual([]);
  });

  test('a note that reaches three microphones counts once, and they go together as a layer', async () => {
    const table =
      'keys,microphone,velocities,bytes\n' +
      ['near', 'far', 'room'].map((name) => `60-60,${name},1-64,1000\n`).join('') +
      '60-60,near,65-127,500\n';
    const player = 'shares: machine, unloads: layer';
    const cues = { '1m1': [[note(0, 60, 50), note(480, 60, 90), note(960, 60, 91)]] };
    expect(entries(await rareOf(2, { table, player, cues }))).toEqual([[[0, 1, 2], 1, 3_000]]);
  });

  test('what another articulation needs stays', async () => {
    // The last row is of both articulations; each of them has a zone of its own beside it.
    const table =
      'articulation,switch,keys,bytes\nlong,24,60-60,1000\nshort,25,60-60,20000\n,,60-60,300000\n';
    const cues = {
      '1m1': [
        [note(0, 24), note(480, 60), note(960, 60), note(1440, 60), note(1920, 25), note(2400, 60)],
      ],
    };
    const rare = await rareOf(2, { table, player: 'shares: machine, unloads: articulation', cues });
    expect(entries(rare)).toEqual([[[1], 1, 20_000]]);
  });

  test('zones that share a sample free it only together', async () => {
    const table = 'keys,sample,bytes\n60-60,a,5000\n61-61,a,5000\n';
    const rare = await rareOf(2, { table, cues: { '1m1': [[note(0, 60), note(480, 61)]] } });
    expect(entries(rare)).toEqual([
      [[0], 1, 0],
      [[1], 1, 0],
    ]);
    expect(rare.bytes).toBe(5_000);
    expect(rare.units.map(({ samples }) => samples)).toEqual([0, 0]);
  });

  test('copies that do not share decide each for itself', async () => {
    const player = 'unloads: sample, shares: copy';
    const cues = { '1m1': [[note(0, 62)], [note(0, 62), note(480, 62)]] };
    const rare = await rareOf(2, { table: threeKeys, player, cues });
    expect(rare.units).toMatchObject([{ copy: 'Part 1', zones: [2], notes: 1, bytes: 300_000 }]);
  });

  test('nothing of an instrument that an unreadable cue may have played is called rare', async () => {
    const files = new MemoryFiles({
      'harp.csv': threeKeys,
      'cues/1m1.mid': cueBytes([{ name: 'Harp', notes: [note(0, 60)] }]),
      'cues/1m2.mid': new Uint8Array(20),
    });
    const of = (cues: readonly string[]): Promise<Plan> =>
      plan({ files, cues, instrument: 'harp.csv', middleC: 4, rare: 5 });
    expect((await of(['cues/1m1.mid'])).rare!.units).toHaveLength(1);
    expect((await of(['cues'])).rare).toEqual({ fewerThan: 5, units: [], bytes: 0 });
  });
});

/** Notes that reach any of some zones, the most frequent kind of event taken: counted one by one. */
const notesOf = ({ template, files }: PlanInput, instrument: Instrument, copy: string | null) => {
  const excluded = doubtSet(...doubtNames.filter((name) => template.settle[name] === 'plain'));
  return (zones: readonly number[]): number => {
    const kinds = new Map<string, Set<string>>();
    for (const reached of reachedClasses(instrument, files)) {
      if (copy !== null && reached.copy.copy !== copy) continue;
      const { event, channel, key, witnesses } = reached.class;
      const hits = reached.starts.some(
        ({ start, doubts }) =>
          zones.includes(start.zone) && doubts.some((set) => (set & excluded) === 0),
      );
      if (!hits) continue;
      const known = kinds.get(event) ?? new Set<string>();
      kinds.set(event, known);
      const reel = files.indexOf(reached.file);
      for (const place of witnesses) known.add(JSON.stringify([reel, place, channel, key]));
    }
    return Math.max(0, ...[...kinds.values()].map(({ size }) => size));
  };
};

/** An instrument in which some zones can't be started. */
const lacking = (instrument: Instrument, zones: readonly number[]): Instrument => ({
  ...instrument,
  program: {
    ...instrument.program,
    starts: instrument.program.starts.map((start) =>
      zones.includes(start.zone) && start.silent !== true ? { ...start, keys: [999, 999] } : start,
    ),
  },
});

describe('random reels', () => {
  test('each entry is what a plan without it lacks', async () => {
    const seen = { entries: 0, several: 0, copies: 0 };
    await fc.assert(
      fc.asyncProperty(randomTemplateReel, fc.integer({ min: 1, max: 6 }), async (reel, limit) => {
        const input = await inputOf(reel, { ...asExported, everyPlace: true });
        const made = makePlan({ ...input, rare: limit });
        for (const unit of made.rare!.units) {
          const instrument = input.instruments.get(unit.instrument)!;
          const count = notesOf(input, instrument, unit.copy);
          expect(unit.notes).toBe(count(unit.zones));
          expect(unit.notes).toBeLessThan(limit);
          seen.entries++;
          if (unit.zones.length > 1) seen.several++;
          if (unit.copy !== null) {
            seen.copies++;
            continue;
          }
          const without = makePlan({
            ...input,
            instruments: new Map([
              ...input.instruments,
              [instrument.id, lacking(instrument, unit.zones)],
            ]),
          });
          expect(made.total.bytes.kept - without.total.bytes.kept).toBe(unit.bytes);
          const loaded = ({ instruments }: Plan): readonly number[] =>
            instruments
              .find(({ id }) => id === instrument.id)!
              .kept.flatMap(({ zone, reasons }) => (reasons[0] === 'mutes' ? [] : [zone]));
          expect(loaded(without)).toEqual(
            loaded(made).filter((zone) => !unit.zones.includes(zone)),
          );
        }
      }),
      { numRuns: 60, seed: 53 },
    );
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(3);
  }, 120_000);

  test('zones that go by themselves are all there', async () => {
    let listed = 0;
    let linked = 0;
    await fc.assert(
      fc.asyncProperty(randomTemplateReel, fc.integer({ min: 1, max: 6 }), async (reel, limit) => {
        const input = await inputOf(
          { ...reel, isPinned: false, unloads: 'sample', shares: 'machine' },
          { ...asExported, everyPlace: true },
        );
        const { rare, instruments } = makePlan({ ...input, rare: limit });
        for (const { id, kept } of instruments) {
          const isTainted = input.files.some(({ tainted }) => tainted.includes(id));
          const instrument = input.instruments.get(id)!;
          const count = notesOf(input, instrument, null);
          // Stereo halves stand side by side, and go together.
          const unit = (zone: number): readonly number[] =>
            instrument.samples[zone]!.partner === null ? [zone] : [zone, zone ^ 1];
          const expected = kept
            .filter(({ reasons }) => !isTainted && reasons[0] !== 'mutes')
            .filter(({ zone }) => count(unit(zone)) < limit)
            .map(({ zone }) => zone);
          if (reel.partners) linked += expected.length;
          const found = rare!.units.filter((one) => one.instrument === id);
          expect(found.flatMap(({ zones }) => zones).sort((a, b) => a - b)).toEqual(expected);
          listed += expected.length;
        }
      }),
      { numRuns: 60, seed: 54 },
    );
    expect(listed).toBeGreaterThan(20);
    expect(linked).toBeGreaterThan(5);
  }, 120_000);
});
