import type { Program, Signal } from '../instruments/program.ts';
import type { ZonedKeyMapRow, ZonedMember } from '../keep/key-map/make-key-map.ts';
import { startKeys } from '../keep/key-map/start-keys.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { OtherControl } from './overview-playable.ts';

/** Keys of MIDI. */
export const keyCount = 128;

/** What is needed of an instrument to say what can still be written for it. */
export interface PlayableContext {
  readonly program: Program;
  /** Whether a start still goes through what stays. */
  readonly isOpen: (start: number) => boolean;
  /** Doubts settled as the plain reading: what starts only through them is not asked for. */
  readonly excluded: DoubtSet;
  /** Rows of what sounds with every articulation: its notes ask for that too. None when left out. */
  readonly everywhere?: readonly ZonedKeyMapRow[];
  /** Where each copy keeps zones of its own, what the one has that is told of; else left out. */
  readonly copy?: PlayableCopy;
}

/** What one copy has, 1 by zone. */
export interface PlayableCopy {
  readonly kept: ZoneMask;
  /** With its samples. */
  readonly loaded: ZoneMask;
}

/** What became of a row at each key. */
export interface RowAt {
  readonly velocity: Range;
  readonly controllers: ZonedKeyMapRow['controllers'];
  /** By key: something starts there, something of it stays, something of it was dropped. */
  readonly there: Uint8Array;
  readonly stays: Uint8Array;
  readonly dropped: Uint8Array;
  /** Of what was dropped: what asks for nothing beside key, velocity and controllers. */
  readonly droppedFreely: Uint8Array;
  /** Of what was dropped: what asks for something of another kind too. */
  readonly droppedBy: ReadonlyMap<OtherControl, Uint8Array>;
}

/** A row with a sound, key by key. */
export const rowAt = (
  { velocity, controllers, members }: ZonedKeyMapRow,
  context: PlayableContext,
): RowAt => {
  const row = emptyRow(velocity, controllers);
  for (const member of members) {
    const { zone, kept } = member;
    // A zone that stays only to stop others has no sound to start.
    const sounds =
      context.copy === undefined
        ? kept !== null && !kept.reasons.includes('mutes')
        : context.copy.loaded[zone] === 1;
    for (const [start, range] of startsOf(member, context, false)) {
      row.there.fill(1, range[0], range[1] + 1);
      if (sounds && context.isOpen(start)) row.stays.fill(1, range[0], range[1] + 1);
      else drop(row, range, otherControls(context.program, start));
    }
  }
  return row;
};

/**
 * What starts without a sound, to stop others: it asks for its zone too, whatever the controllers of its
 * layer say. Only where it is missed.
 */
export const silentRows = (
  rows: readonly ZonedKeyMapRow[],
  context: PlayableContext,
): readonly RowAt[] => {
  const found = new Map<string, OpenRow>();
  for (const member of rows.flatMap(({ members }) => members)) {
    const { copy } = context;
    const stays = copy === undefined ? member.kept !== null : copy.kept[member.zone] === 1;
    for (const [start, range] of startsOf(member, context, true)) {
      if (stays && context.isOpen(start)) continue;
      const { velocities } = context.program.starts[start]!;
      const row = found.get(velocities.join()) ?? emptyRow(velocities, []);
      found.set(velocities.join(), row);
      drop(row, range, otherControls(context.program, start));
    }
  }
  return [...found.values()];
};

const drop = (row: OpenRow, [lo, hi]: Range, others: readonly OtherControl[]): void => {
  row.dropped.fill(1, lo, hi + 1);
  if (others.length === 0) row.droppedFreely.fill(1, lo, hi + 1);
  for (const other of others) {
    const keys = row.droppedBy.get(other) ?? new Uint8Array(keyCount);
    row.droppedBy.set(other, keys.fill(1, lo, hi + 1));
  }
};

/** Signals that a row does not show; what chooses articulations is shown by their names. */
const otherSignals: Readonly<Partial<Record<Signal['kind'], OtherControl>>> = {
  'previous-key': 'note-before',
  'previous-velocity': 'note-before',
  held: 'held-keys',
  bend: 'bend',
  pressure: 'pressure',
  'poly-pressure': 'pressure',
  tempo: 'tempo',
};

const otherControls = ({ starts, gates, signals }: Program, start: number) =>
  gates[starts[start]!.gate]!.flatMap(({ signal }) => otherSignals[signals[signal]!.kind] ?? []);

interface OpenRow extends RowAt {
  readonly droppedBy: Map<OtherControl, Uint8Array>;
}

const emptyRow = (velocity: Range, controllers: RowAt['controllers']): OpenRow => ({
  ...{ velocity, controllers },
  there: new Uint8Array(keyCount),
  stays: new Uint8Array(keyCount),
  dropped: new Uint8Array(keyCount),
  droppedFreely: new Uint8Array(keyCount),
  droppedBy: new Map(),
});

/** The starts of a zone with the keys that they have, those with a sound or those without. */
const startsOf = (
  { starts }: ZonedMember,
  { program, excluded }: PlayableContext,
  areSilent: boolean,
): readonly (readonly [start: number, keys: Range])[] =>
  starts.flatMap((i) => {
    const start = program.starts[i]!;
    if ((start.silent === true) !== areSilent || (start.doubt & excluded) !== 0) return [];
    const range = startKeys(program, start);
    return range === null ? [] : [[i, range]];
  });
