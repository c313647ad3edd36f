import fc from 'fast-check';
import { expect } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { Model } from './model.ts';
import { doubtsIn, whatIsKept, wholePlan } from './plan-facts.ts';
import { randomReel, type CueOptions } from './random-cue.ts';
import { randomModel, type ModelOptions } from './random-model.ts';
import { headroom, setting, sfzStyle, soundFontStyle, tableStyle, templateText } from './styles.ts';
import { writeSfz } from './write-sfz.ts';
import { writeSoundFont } from './write-soundfont.ts';
import { writeTable } from './write-table.ts';

/** How many random instruments, and which. */
export interface Runs {
  readonly seed: number;
  readonly numRuns: number;
  /** Stop at the first that differs, without looking for a smaller one. */
  readonly endOnFailure?: boolean;
}

/** Something to be done to the model before it is written as SFZ: a mistake, to see it found. */
export type Change = (model: Model) => Model;

const unchanged: Change = (model) => model;

/** Doubts that kept something in some run: what the comparison has really seen. */
type Seen = Promise<ReadonlySet<string>>;

/** Keys and velocities: all three formats. */
export const threePlansAreOne = async (runs: Runs, change = unchanged): Seen => {
  const seen = new Set<string>();
  const models = randomModel({ articulations: false, fades: false, releases: false });
  const reels = randomReel({ ...allEvents, switches: false });
  const styles = fc.record({ sfz: sfzStyle, table: tableStyle, soundFont: soundFontStyle });
  await fc.assert(
    fc.asyncProperty(models, reels, styles, fc.boolean(), headroom, async (...all) => {
      const [model, reel, style, wholeBank, headroom] = all;
      const { bytes, zoneOf } = writeSoundFont(model, style.soundFont);
      const files = new MemoryFiles({
        ...reel,
        ...writeSfz(change(model), 'one.sfz', style.sfz),
        'one.csv': writeTable(model, style.table),
        'one.sf2': bytes,
      });
      const planned = (instrument: string, options: PlanOptions = {}): Promise<Plan> =>
        plan({ cues: ['cues'], instrument, headroom, files, ...options });
      const byTable = await planned('one.csv', { middleC: 4 });
      for (const doubt of doubtsIn(byTable)) seen.add(doubt);
      expect(whatIsKept(await planned('one.sfz'))).toEqual(whatIsKept(byTable));
      const bank = await planned(wholeBank ? 'one.sf2' : 'one.sf2#0:0');
      expect(whatIsKept(bank, (zone) => zoneOf[zone]!)).toEqual(whatIsKept(byTable));
    }),
    runs,
  );
  return seen;
};

const everything: ModelOptions = { articulations: true, fades: true, releases: true };

/** Moments an eighth of a second apart. */
const allEvents: CueOptions = {
  ...{ switches: true, controllers: true, modes: true, resets: true },
  moment: 120,
};

const sfzIsTable = async (
  runs: Runs,
  change: Change,
  models: ModelOptions,
  cues: CueOptions,
  settle: PlanOptions['settle'] & {},
): Seen => {
  const seen = new Set<string>();
  const styles = fc.record({ sfz: sfzStyle, table: tableStyle });
  await fc.assert(
    fc.asyncProperty(
      ...([randomModel(models), randomReel(cues), styles, setting, headroom] as const),
      async (model, reel, style, setting, headroom) => {
        // Crossfades have limits that are not quite what they leave to be heard, and so have layers.
        const layers =
          !style.sfz.velocityFades && model.zones.every(({ fades }) => fades.length === 0);
        const unloads = setting.unloads === 'layer' && !layers ? 'sample' : setting.unloads;
        const told = { ...setting, unloads };
        // Headroom leaves watched keys that play nothing as they are, and a tuned switch may become one.
        const watched = style.sfz.watched && headroom.keys === 0;
        // Nor may an attack be silent where releases could ask for it.
        const velocityFades = style.sfz.velocityFades && !models.releases;
        const sfz = { ...style.sfz, watched, velocityFades };
        const files = new MemoryFiles({
          ...reel,
          ...writeSfz(change(model), 'one.sfz', sfz),
          'one.csv': writeTable(model, style.table),
          'sfz.yaml': templateText('file: one.sfz', told),
          'table.yaml': templateText('zones: one.csv, middle-c: C4', told),
        });
        const planned = (template: string): Promise<Plan> =>
          plan({ template, headroom, settle, files });
        const byTable = await planned('table.yaml');
        for (const doubt of doubtsIn(byTable)) seen.add(doubt);
        const bySfz = await planned('sfz.yaml');
        expect(wholePlan(bySfz, layers)).toEqual(wholePlan(byTable, layers));
      },
    ),
    runs,
  );
  return seen;
};

/**
 * Pedals that were down before, pedals and note-offs of one tick, a note-off for several strikes of its
 * key: how long a note lasts by these is read in SFZ alone.
 */
const lengthsSettled = { engine: 'plain', 'start-state': 'plain', order: 'plain' } as const;

/** Switches, where no engine reads the file in another way: SFZ and tables, every doubt. */
export const sfzIsTableWithDoubts = (runs: Runs, change = unchanged): Seen =>
  sfzIsTable(
    runs,
    change,
    { ...everything, releases: false, fades: false },
    { ...allEvents, resets: false },
    {},
  );

/** Fades too. */
export const sfzIsTableWithFades = (runs: Runs, change = unchanged): Seen =>
  sfzIsTable(
    runs,
    change,
    { ...everything, releases: false },
    { ...allEvents, resets: false },
    lengthsSettled,
  );

/**
 * Releases and resets too, which engines read in several ways: what is left when that is settled. No
 * fades: an SFZ engine may want an attack that is never heard before it plays a release, and a table
 * has nobody who does.
 */
export const sfzIsTableWhenSettled = (runs: Runs, change = unchanged): Seen =>
  sfzIsTable(runs, change, { ...everything, fades: false }, allEvents, lengthsSettled);
