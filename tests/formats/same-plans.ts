import fc from 'fast-check';
import { expect } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { Model } from './model.ts';
import { randomModel, type ModelOptions } from './random-model.ts';
import { randomReel, type CueOptions } from './random-cue.ts';
import { writeSfz, type SfzStyle } from './write-sfz.ts';
import { writeSoundFont, type SoundFontStyle } from './write-soundfont.ts';
import { writeTable, type TableStyle } from './write-table.ts';

/** How many random instruments, and which. */
export interface Runs {
  readonly seed: number;
  readonly numRuns: number;
}

type Reel = Readonly<Record<string, Uint8Array>>;

const sfzStyle: fc.Arbitrary<SfzStyle> = fc.record({
  groups: fc.boolean(),
  keyNames: fc.boolean(),
  velocityFades: fc.boolean(),
  fadeSteps: fc.constantFrom(0, 1, 20),
  watched: fc.boolean(),
  defaultPath: fc.boolean(),
  octaves: fc.constantFrom(-1, 0, 1),
});

const tableStyle: fc.Arbitrary<TableStyle> = fc.record({
  keyNames: fc.boolean(),
  size: fc.constantFrom('frames', 'bytes'),
});

export const soundFontStyle: fc.Arbitrary<SoundFontStyle> = fc.record({
  split: fc.option(fc.integer({ min: 58, max: 67 })),
  globals: fc.boolean(),
});

/** Room around what is played, mostly none. */
const headroom = fc.oneof(
  { weight: 2, arbitrary: fc.constant({ keys: 0, velocity: 0, controller: 0 }) },
  fc.record({ keys: fc.nat(2), velocity: fc.nat(20), controller: fc.nat(20) }),
);

const onlyKeys: ModelOptions = { articulations: false, fades: false, releases: false };
const onlyNotes: CueOptions = {
  ...{ switches: false, controllers: true, modes: true, resets: true },
  moment: 120,
};

/** Keys and velocities: all three formats. */
export const threePlansAreOne = ({ seed, numRuns }: Runs): Promise<void> => {
  const styles = fc.record({ sfz: sfzStyle, table: tableStyle, soundFont: soundFontStyle });
  return fc.assert(
    fc.asyncProperty(
      randomModel(onlyKeys),
      randomReel(onlyNotes),
      styles,
      fc.boolean(),
      headroom,
      async (model, reel, style, wholeBank, headroom) => {
        const { bytes, zoneOf } = writeSoundFont(model, style.soundFont);
        const files = new MemoryFiles({
          ...reel,
          ...writeSfz(model, 'one.sfz', style.sfz),
          'one.csv': writeTable(model, style.table),
          'one.sf2': bytes,
        });
        const planned = async (instrument: string, options: PlanOptions = {}): Promise<Plan> =>
          plan({ cues: ['cues'], instrument, headroom, files, ...options });
        const table = whatIsKept(await planned('one.csv', { middleC: 4 }));
        expect(whatIsKept(await planned('one.sfz'))).toEqual(table);
        const bank = await planned(wholeBank ? 'one.sf2' : 'one.sf2#0:0');
        expect(whatIsKept(bank, (zone) => zoneOf[zone]!)).toEqual(table);
      },
    ),
    { seed, numRuns },
  );
};

/** What a template says of an instrument, in whatever format that is. */
interface Setting {
  readonly loads: string;
  readonly shares: string;
  readonly unloads: string;
  readonly slack: string;
}

const setting: fc.Arbitrary<Setting> = fc.record({
  loads: fc.constantFrom('whole', 'streamed, head: 9 ms', 'streamed, head: 1 KiB'),
  shares: fc.constantFrom('machine', 'copy'),
  unloads: fc.constantFrom('sample', 'sample', 'articulation', 'instrument'),
  slack: fc.constantFrom('0 ms', '20 ms'),
});

const template = (instrument: string, { loads, shares, unloads, slack }: Setting): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: ${loads}, shares: ${shares}, unloads: ${unloads}, per-zone: 100 B } }
instruments: { one: { ${instrument} } }
routes: [ { track: '*', instrument: one } ]
slack: ${slack}
`;

const everything: ModelOptions = { articulations: true, fades: true, releases: true };
const allEvents: CueOptions = {
  ...{ switches: true, controllers: true, modes: true, resets: true },
  moment: 120,
};

const sfzIsTable = (
  { seed, numRuns }: Runs,
  models: fc.Arbitrary<Model>,
  reels: fc.Arbitrary<Reel>,
  settle: PlanOptions['settle'] & {},
): Promise<void> => {
  const styles = fc.record({ sfz: sfzStyle, table: tableStyle });
  return fc.assert(
    fc.asyncProperty(models, reels, styles, setting, headroom, async (...all) => {
      const [model, reel, style, setting, headroom] = all;
      const files = new MemoryFiles({
        ...reel,
        ...writeSfz(model, 'one.sfz', style.sfz),
        'one.csv': writeTable(model, style.table),
        'sfz.yaml': template('file: one.sfz', setting),
        'table.yaml': template('zones: one.csv, middle-c: C4', setting),
      });
      const common = { headroom, settle, files };
      const sfz = await plan({ template: 'sfz.yaml', ...common });
      const table = await plan({ template: 'table.yaml', ...common });
      expect(wholePlan(sfz)).toEqual(wholePlan(table));
    }),
    { seed, numRuns },
  );
};

/** Switches and fades, where no engine reads the file in another way: SFZ and tables, every doubt. */
export const sfzIsTableWithDoubts = (runs: Runs): Promise<void> =>
  sfzIsTable(
    runs,
    randomModel({ ...everything, releases: false }),
    randomReel({ ...allEvents, resets: false }),
    {},
  );

/** Releases and resets too, which engines read in several ways: what is left when that is settled. */
export const sfzIsTableWhenSettled = (runs: Runs): Promise<void> =>
  sfzIsTable(runs, randomModel(everything), randomReel(allEvents), { engine: 'plain' });

/** `3:tone-2` in a bank, `wav/tone-2.wav` in SFZ. */
const bare = (name: string): string => /tone-\d+/.exec(name)![0];

/**
 * What a plan says that does not depend on how its instrument is written, zones by their number in the
 * model.
 */
const whatIsKept = (
  { instruments: [one], doubts, together, doubtsAll, machines, total, cues }: Plan,
  zoneOf = (zone: number): number => zone,
) => {
  const { zones, zonesKept, samples, samplesKept, bytes, kept, dropped } = one!;
  const byZone = <Row extends { readonly zone: number; readonly samples: readonly string[] }>(
    rows: readonly Row[],
  ) =>
    rows
      .map((row) => ({ ...row, key: '', zone: zoneOf(row.zone), samples: row.samples.map(bare) }))
      .sort((a, b) => a.zone - b.zone);
  return {
    ...{ zones, zonesKept, samples, samplesKept, bytes },
    ...{ kept: byZone(kept), dropped: byZone(dropped) },
    // Without those that stand only beside an answered one: of that the formats do not say the same.
    doubts: doubts.filter(({ settled, zones }) => settled === null && zones > 0),
    ...{ together, doubtsAll, machines, total, cues },
  };
};

/** The same, with copies and articulations; the layers of crossfades have other limits in SFZ. */
const wholePlan = (made: Plan) => ({
  ...whatIsKept(made),
  copies: made.instruments[0]!.copies,
  articulations: made.instruments[0]!.articulations.map(({ layers: _, ...one }) => one),
});
