import { fold } from '../../notation/fold.ts';
import type { SwitchTest } from '../../notation/switch.ts';
import { everyArticulation } from '../instrument.ts';
import { shown } from './cell-text.ts';
import type { Faults } from './faults.ts';
import type { RowDraft } from './row-draft.ts';
import { switchLabel } from '../switch-label.ts';

/** An articulation of a table. */
export interface TableArticulation {
  /** As its first row spells it. */
  readonly name: string;
  /** False for the rows that belong to every articulation. */
  readonly isNamed: boolean;
  readonly switch: SwitchTest | null;
}

/** The articulations in the order in which they appear, and which of them each row belongs to. */
export interface TableArticulations {
  readonly all: readonly TableArticulation[];
  /** By row: an index into {@link all}. */
  readonly ofRow: readonly number[];
}

/**
 * Gathers the articulations: names are compared folded, and a switch given in one row holds for all
 * rows of its articulation.
 *
 * Faults: `table-switch-differs`.
 */
export const gatherArticulations = (
  rows: readonly RowDraft[],
  faults: Faults,
): TableArticulations => {
  const all: Draft[] = [];
  const byName = new Map<string, number>();
  const ofRow = rows.map((row) => {
    const folded = row.articulation === null ? everyArticulation : fold(row.articulation);
    let index = byName.get(folded);
    if (index === undefined) {
      index = all.length;
      byName.set(folded, index);
      all.push({ name: row.articulation, first: null });
    }
    const draft = all[index]!;
    draft.first ??= row.switch;
    checkSame(draft, row, faults);
    return index;
  });
  return {
    all: all.map(({ name, first }) => ({
      name: name ?? everyArticulation,
      isNamed: name !== null,
      switch: first?.test ?? null,
    })),
    ofRow,
  };
};

interface Draft {
  readonly name: string | null;
  first: RowDraft['switch'];
}

const checkSame = ({ name, first }: Draft, row: RowDraft, faults: Faults): void => {
  if (first === null || row.switch === null) return;
  if (switchLabel(first.test) === switchLabel(row.switch.test)) return;
  const args = {
    articulation: shown(name ?? everyArticulation),
    switch: shown(row.switch.text),
    other: shown(first.text),
    line: first.at.line ?? 0,
  };
  faults.add('table-switch-differs', args, row.switch.at);
};
