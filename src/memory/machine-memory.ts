import { fitOf, type Line } from './calibration.ts';
import { ownOnLine } from './computed-load.ts';
import { figureOf, figureSum, type Figure } from './figure.ts';
import type { LoadedInstrument } from './loaded.ts';
import { lineChoices } from './line-choices.ts';
import { memoryOf } from './loaded-memory.ts';
import { sharedSamples } from './shared-samples.ts';

/**
 * Everything loaded on one machine (design, section 7). Instruments of one definition whose player is
 * the same and shares samples hold each sample once; all else adds up.
 */
export const machineMemory = (all: readonly LoadedInstrument[]): Figure =>
  figureSum(
    groupsOf(all).map((group) => (group.length === 1 ? memoryOf(group[0]!) : groupMemory(group))),
  );

/** What is loaded: instruments that share samples with each other, the others each by itself. */
const groupsOf = (all: readonly LoadedInstrument[]): readonly (readonly LoadedInstrument[])[] => {
  const groups = new Map<string, LoadedInstrument[]>();
  all.forEach((loaded, i) => {
    const { instrument, player, copies } = loaded;
    if (!copies.some(({ zones }) => zones.includes(1))) return;
    const key =
      player.shares === 'machine' ? `shared ${instrument.sha256} ${player.id}` : `own ${String(i)}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [loaded]);
    else group.push(loaded);
  });
  return [...groups.values()];
};

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
