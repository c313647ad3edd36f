import fc from 'fast-check';
import { expect } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { outlineable } from './outlineable.ts';
import { copiesOf, doubtsIn, whatIsKept } from './plan-facts.ts';
import { randomReel } from './random-cue.ts';
import { randomModel, type ModelOptions } from './random-model.ts';
import type { Change, Runs } from './same-plans.ts';
import { headroom, modelOutlineStyle, setting, tableStyle, templateText } from './styles.ts';
import { writeOutline } from './write-outline.ts';
import { writeTable } from './write-table.ts';

/**
 * An outline and a zone table of the same zones: the same plan, with every doubt. They differ in what
 * an articulation is, so players let go of samples or of everything.
 *
 * @returns doubts that kept something in some run
 */
export const outlineIsTable = async (
  runs: Runs,
  options: ModelOptions,
  change: Change = (model) => model,
): Promise<ReadonlySet<string>> => {
  const seen = new Set<string>();
  const models = randomModel(options).map(outlineable);
  const reels = randomReel({
    ...{ switches: true, controllers: true, modes: true, resets: true },
    moment: 120,
  });
  const styles = fc.record({ outline: modelOutlineStyle, table: tableStyle });
  await fc.assert(
    fc.asyncProperty(models, reels, styles, setting, headroom, async (...all) => {
      const [model, reel, style, setting, headroom] = all;
      fc.pre(model.zones.length > 0);
      const unloads = setting.unloads === 'instrument' ? 'instrument' : 'sample';
      const told = { ...setting, unloads };
      const { text, samples } = writeOutline(change(model), style.outline);
      const files = new MemoryFiles({
        ...reel,
        'one.yaml': text,
        'one.csv': writeTable(model, style.table),
        'outline.yaml': templateText('outline: one.yaml', told),
        'table.yaml': templateText('zones: one.csv, middle-c: C4', told),
      });
      // A coarse zone may hold more than a row of a table does, which is in doubt there.
      const settle = { stretch: 'plain' } as const;
      const planned = (template: string): Promise<Plan> =>
        plan({ template, headroom, settle, files });
      const byTable = await planned('table.yaml');
      for (const doubt of doubtsIn(byTable)) seen.add(doubt);
      const byOutline = await planned('outline.yaml');
      const nameOf = (name: string): string => samples.get(name) ?? name;
      expect(withoutNumbers(whatIsKept(byOutline, undefined, nameOf))).toEqual(
        withoutNumbers(whatIsKept(byTable)),
      );
      expect(copiesOf(byOutline)).toEqual(copiesOf(byTable));
    }),
    runs,
  );
  return seen;
};

/** Articulations are numbered in the order of a definition, and not the same ones in the two. */
const withoutNumbers = (facts: ReturnType<typeof whatIsKept>) => ({
  ...facts,
  kept: facts.kept.map((row) => ({ ...row, articulations: [] })),
  dropped: facts.dropped.map((row) => ({ ...row, articulations: [] })),
});
