import { doubtSet, plain, type DoubtSet } from '../../terms/doubt.ts';
import { standardHold, type Gate, type Program, type Start } from '../program.ts';
import type { RowDraft } from './row-draft.ts';
import { Signals } from '../signals.ts';
import type { TableArticulations } from './table-articulations.ts';
import { playsBySwitch } from './choice.ts';
import type { ZoneDraft } from './zone-draft.ts';

/** A zone, the row it comes from and the number of its articulation. */
export interface PlacedZone {
  readonly zone: ZoneDraft;
  readonly row: RowDraft;
  readonly articulation: number;
}

const alwaysOpen = 0;
const anyValue = 127;

/**
 * The program of a table: one start for each zone, in the same order. Only where there are several
 * named articulations does a switch decide ({@link playsBySwitch}); where none of them has one, a cue
 * can not tell which plays, and what each starts is doubt `no-switch`.
 *
 * A table does not know how long a release goes on, so layers may fade in for ever after it; the
 * engine marks those with doubt `tail`.
 */
export const compileTable = (
  zones: readonly PlacedZone[],
  { all }: TableArticulations,
): Program => {
  const choice = playsBySwitch(all);
  const signals = new Signals(all.flatMap((one) => one.switch ?? []));
  const gates: Gate[] = [[]];
  const gateOf = all.map(({ switch: test }) =>
    choice === 'switch' && test !== null ? gates.push([signals.condition(test)]) - 1 : alwaysOpen,
  );
  const doubtOf = all.map(({ isNamed }): DoubtSet =>
    choice === 'unknown' && isNamed ? doubtSet('no-switch') : plain,
  );
  const starts = zones.map(({ zone, row, articulation }, number): Start => ({
    zone: number,
    articulation,
    event: row.event,
    keys: zone.keys,
    velocities: zone.velocities,
    gate: gateOf[articulation]!,
    fades: zone.controllers
      .filter(({ range: [lo, hi] }) => lo > 0 || hi < anyValue)
      .map((one) => signals.fade(one)),
    doubt: doubtOf[articulation]!,
    hold: 0,
    releaseSeconds: Infinity,
  }));
  return {
    scope: 'copy',
    retriggers: true,
    signals: signals.all,
    gates,
    holds: [standardHold],
    starts,
    zones: zones.length,
    articulations: all.length,
  };
};
