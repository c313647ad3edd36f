import { fitOf, type Line } from './calibration.ts';
import { ownOnLine } from './computed-load.ts';
import { figureOf, figureSum, type Figure } from './figure.ts';
import type { LoadedInstrument } from './loaded.ts';
import { lineChoices } from './line-choices.ts';
import { memoryOf } from './loaded-memory.ts';
import { sharedSamples } from './shared-samples.ts';
import { sharingGroups } from './sharing-groups.ts';

/**
 * Everything loaded on one machine (design, section 7). Instruments of one definition whose player is
 * the same and shares samples hold each sample once; all else adds up.
 */
export const machineMemory = (all: readonly LoadedInstrument[]): Figure =>
  figureSum(
    sharingGroups(all)
      .map((group) => group.map((i) => all[i]!))
      .map((group) => (group.length === 1 ? memoryOf(group[0]!) : groupMemory(group))),
  );

/**
 * Instruments that hold a sample once between them: it costs the highest factor x load. Readings were
 * of one copy, so lines decide; the range is that of all ways to choose a line for each.
 */
const groupMemory = (group: readonly LoadedInstrument[]): Figure => {
  const { loads, sets } = sharedSamples(group);
  const fits = group.map(({ calibration }) => fitOf(calibration));
  const total = (lines: readonly Line[]): number => {
    const own = loads.reduce((sum, load, m) => sum + ownOnLine(lines[m]!, load), 0);
    return sets.reduce(
      (sum, { members, bytes }) => sum + bytes * Math.max(...members.map((m) => lines[m]!.factor)),
      own,
    );
  };
  const room = fits.reduce((sum, { residual }, m) => sum + residual * loads[m]!.copies, 0);
  const likely = total(fits.map(({ lines }) => lines[0]));
  const all = fits.map(({ lines }) => lines);
  const ends = [...lineChoices(all, 'low'), ...lineChoices(all, 'high')];
  return figureOf(0, [likely, ...ends.map(total)], room);
};
