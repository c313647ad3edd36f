import { keyLabel } from '../../terms/key.ts';
import { contains } from '../../terms/range.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { shown } from './cell-text.ts';
import { playsBySwitch } from './choice.ts';
import type { RowDraft } from './row-draft.ts';
import { sharedValues } from '../switch-range.ts';
import type { TableArticulation } from './table-articulations.ts';
import { velocityGaps } from './velocity-gaps.ts';
import { wideZones } from './wide-zones.ts';

/** The most names that one remark lists. */
const mostNamed = 12;

/**
 * What is good to know about a table that was read.
 *
 * @param middleC the octave of key 60 in the table
 */
export const remarksOn = (
  path: string,
  rows: readonly RowDraft[],
  articulations: readonly TableArticulation[],
  middleC: number,
): readonly Finding[] => [
  ...wideZones(path, rows, middleC),
  ...velocityGaps(path, rows),
  ...assumptions(path, rows),
  ...undecided(path, articulations),
  ...sharedSwitches(path, articulations),
  ...playedSwitches(path, rows, articulations),
];

const assumptions = (path: string, rows: readonly RowDraft[]): readonly Finding[] => {
  const all = rows.filter(({ size }) => size.assumes.length > 0);
  if (all.length === 0) return [];
  const count = (name: 'rate' | 'bits' | 'channels'): number =>
    all.filter(({ size }) => size.assumes.includes(name)).length;
  const args = {
    rows: all.length,
    rate: count('rate'),
    bits: count('bits'),
    channels: count('channels'),
  };
  return [finding('note', 'table-assumed', path, args)];
};

/** Nothing says which articulation plays, or nothing says it of some. */
const undecided = (path: string, all: readonly TableArticulation[]): readonly Finding[] => {
  const choice = playsBySwitch(all);
  if (choice === 'nothing') return [];
  const without = all.filter((one) => one.isNamed && one.switch === null);
  if (without.length === 0) return [];
  const code = choice === 'unknown' ? 'table-no-switch' : 'table-always-sounds';
  return [finding('note', code, path, namesOf(without))];
};

/** Articulations that one event calls up together. */
const sharedSwitches = (path: string, all: readonly TableArticulation[]): readonly Finding[] => {
  if (playsBySwitch(all) !== 'switch') return [];
  const isShared = sharedValues(all.map((one) => one.switch));
  const shared = all.filter((_, i) => isShared[i]!);
  return shared.length === 0 ? [] : [finding('note', 'table-switch-shared', path, namesOf(shared))];
};

/** Keyswitches that every zone lies over: its range was probably meant to be shorter. */
const playedSwitches = (
  path: string,
  rows: readonly RowDraft[],
  all: readonly TableArticulation[],
): readonly Finding[] => {
  if (playsBySwitch(all) !== 'switch') return [];
  const keys = new Set(all.flatMap((one) => (one.switch?.kind === 'key' ? [one.switch.key] : [])));
  const played = [...keys].filter((key) =>
    rows.every((row) => row.keys.every((range) => contains(range, key))),
  );
  if (played.length === 0) return [];
  const labels = played.map((key) => keyLabel(key));
  const args = { keys: labels.slice(0, mostNamed), more: Math.max(0, labels.length - mostNamed) };
  return [finding('note', 'table-switch-plays', path, args)];
};

const namesOf = (
  some: readonly TableArticulation[],
): { readonly articulations: readonly string[]; readonly more: number } => ({
  articulations: some.slice(0, mostNamed).map(({ name }) => shown(name)),
  more: Math.max(0, some.length - mostNamed),
});
