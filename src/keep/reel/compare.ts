import { fitOf } from '../../memory/calibration.ts';
import { computedCopy, computedLoad } from '../../memory/computed-load.ts';
import { memoryOf } from '../../memory/loaded-memory.ts';
import type { LoadedInstrument } from '../../memory/loaded.ts';
import type { LoadedReading } from '../../memory/readings/read-loaded.ts';
import { loadedFor, type Loadable, type Need } from '../../memory/reel/need.ts';
import { refit, refitted, type CopiesRead, type Refit } from '../../memory/refit.ts';
import type { Player } from '../../template/player.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import type { ComparedReading, Comparison, RefittedPlayer } from './reel-memory.ts';

/** An instrument, and what the reel needs of it. */
export interface ComparedSubject {
  readonly id: string;
  readonly loadable: Loadable;
  readonly need: Need;
}

export interface Compared {
  readonly comparison: Omit<Comparison, 'file'>;
  /** `loaded-unneeded` and `loaded-far-off`, where the row stands. */
  readonly findings: readonly Finding[];
}

/**
 * Holds what players show against the estimates for what is needed, and fits each player of which
 * something was read (design, section 7). Readings that stand in the template (`measured`) of any
 * instrument of such a player count in the fit.
 *
 * @param players of the template, in its order; null: there is none, and no keys to write
 * @param file the table of readings, as the user named it
 * @throws {RangeError} when a row names an instrument that is not among the subjects
 */
export const compareReadings = (
  rows: readonly LoadedReading[],
  subjects: readonly ComparedSubject[],
  players: readonly Player[] | null,
  file: string,
): Compared => {
  const byId = new Map(subjects.map((subject) => [subject.id, subject]));
  const findings: Finding[] = [];
  const read = rows.map((row): Row => {
    const subject = byId.get(row.instrument);
    if (subject === undefined) throw new RangeError(`no instrument ${row.instrument}`);
    const made = rowOf(row, subject);
    const slip = slipOf(made, file);
    if (slip !== null) findings.push(slip);
    return made;
  });
  // What nothing is needed of says nothing of the player: its row is told and left out.
  const counted = read.filter(({ copies }) => copies > 0);
  const telling = counted.filter(({ tells }) => tells);
  const refits = new Map(
    inOrder(telling, players).map((player) => {
      const own = telling.filter((row) => row.player.id === player.id);
      const measured = subjects.flatMap(({ loadable }) =>
        loadable.player.id === player.id && tellsOfPlayer(loadable) ? measuredOf(loadable) : [],
      );
      const fit = refit(player, [...own, ...measured]);
      return [player.id, { fit, readings: own.length, measured: measured.length }] as const;
    }),
  );
  return {
    comparison: {
      rows: counted.map((row) =>
        comparedOf(row, row.tells ? refits.get(row.player.id)!.fit : null),
      ),
      players: [...refits].map(([id, { fit, readings, measured }]): RefittedPlayer => ({
        id,
        readings,
        measured,
        ...fit,
        keys: players === null ? null : fit.keys,
      })),
    },
    findings,
  };
};

/** A reading with what is computed for the copies that it is of. */
interface Row extends CopiesRead {
  readonly row: LoadedReading;
  readonly player: Player;
  readonly estimate: ComparedReading['estimate'];
  /** {@link tellsOfPlayer}. */
  readonly tells: boolean;
}

/** False where sizes were read off the display themselves: they say nothing of how a player counts. */
const tellsOfPlayer = ({ instrument }: Loadable): boolean =>
  !instrument.samples.some(({ asLoaded }) => asLoaded === true);

const rowOf = (row: LoadedReading, { loadable, need }: ComparedSubject): Row => {
  const loaded = loadedOf(loadable, row.copy === null ? need : copyAlone(need, row.copy));
  const { instrument, player } = loadable;
  const { copies, own, samples } = computedLoad(instrument, player, loaded.copies);
  const { bytes, low, high, basis } = memoryOf(loaded);
  return {
    row,
    player,
    estimate: { bytes, low, high, basis },
    tells: tellsOfPlayer(loadable),
    copies,
    computed: own + samples,
    shown: row.bytes,
  };
};

const loadedOf = (loadable: Loadable, need: Need | null): LoadedInstrument =>
  need === null ? { ...loadable, copies: [] } : loadedFor(loadable, need);

/** What is needed of one copy; null: nothing, as no cue plays it. */
const copyAlone = (need: Need, copy: string): Need | null => {
  if (need.kind === 'shared') {
    return need.copies.has(copy) ? { ...need, copies: new Set([copy]) } : null;
  }
  const zones = need.copies.get(copy);
  return zones === undefined ? null : { kind: 'own', copies: new Map([[copy, zones]]) };
};

const slipOf = ({ row, copies, shown, estimate }: Row, file: string): Finding | null => {
  const { instrument, copy, at } = row;
  if (copies === 0) {
    return finding('warning', 'loaded-unneeded', file, { instrument, copy }, at);
  }
  const { bytes } = estimate;
  if (Math.abs(shown - bytes) <= Math.max(shown, bytes) / 2) return null;
  return finding('warning', 'loaded-far-off', file, { instrument, shown, estimate: bytes }, at);
};

/** Each state was read of one copy. One without zones is loaded all the same: it was on the display. */
const measuredOf = ({ instrument, player, calibration }: Loadable): readonly CopiesRead[] =>
  fitOf(calibration).states.map(({ zones, bytes }) => ({
    copies: 1,
    computed: zones.includes(1) ? computedCopy(instrument, player, zones) : player.perCopy,
    shown: bytes,
  }));

/** Players of which something was read. */
const inOrder = (rows: readonly Row[], players: readonly Player[] | null): readonly Player[] => {
  const read = new Map(rows.map(({ player }) => [player.id, player]));
  const known = (players ?? []).flatMap(({ id }) => read.get(id) ?? []);
  return [...new Set([...known, ...read.values()])];
};

const comparedOf = (made: Row, fit: Refit | null): ComparedReading => ({
  instrument: made.row.instrument,
  copy: made.row.copy,
  player: made.player.id,
  shown: made.shown,
  estimate: made.estimate,
  error: made.shown - made.estimate.bytes,
  refitted: fit !== null && made.estimate.basis === 'computed' ? refitted(fit, made) : null,
});
