import type { Program, StartEvent } from '../instruments/program.ts';
import { bandsOf, type Bands } from './bands.ts';
import { fadingSignals } from './fading-signals.ts';

/** What playing needs to know of a program, found once for all its copies. */
export interface PreparedProgram {
  readonly program: Program;
  readonly bands: readonly Bands[];
  /** Index of the patch signal, or -1. */
  readonly patch: number;
  readonly readsTempo: boolean;
  /** A signal depends on how long ago something was. */
  readonly readsTime: boolean;
  readonly fading: readonly number[];
  readonly listens: ReadonlySet<StartEvent>;
  /** The holds by which voices have to be followed. */
  readonly followed: readonly FollowedHold[];
  /** Holds of what a key starts by going up. */
  readonly noteOffHolds: ReadonlySet<number>;
  /** Signals whose change starts something, each with the holds of what it starts. */
  readonly changes: ReadonlyMap<number, ReadonlySet<number>>;
  /** Voices are followed only where a release or a fade depends on them. */
  readonly follows: boolean;
  /** No signal follows keys: on a tick of notes alone, their order says nothing. */
  readonly keysAreInert: boolean;
}

export interface FollowedHold {
  /** Index into the program's holds. */
  readonly hold: number;
  /** Release times of the fading zones so held, in seconds, ascending. */
  readonly releases: readonly number[];
  /** Something starts when voices so held are let go. */
  readonly waits: boolean;
}

const prepared = new WeakMap<Program, Map<string, PreparedProgram>>();

/**
 * @param rooms by how much controllers may later be widened: what one of them lets in and what it does
 *   not stay apart
 */
export const prepare = (program: Program, rooms: readonly number[] = []): PreparedProgram => {
  let byRooms = prepared.get(program);
  if (byRooms === undefined) prepared.set(program, (byRooms = new Map<string, PreparedProgram>()));
  const text = rooms.join(' ');
  let found = byRooms.get(text);
  if (found === undefined) byRooms.set(text, (found = examine(program, rooms)));
  return found;
};

const keyed: ReadonlySet<string> = new Set([
  'switch',
  'held',
  'previous-key',
  'previous-velocity',
  'channel',
  'tempo',
]);

const examine = (program: Program, rooms: readonly number[]): PreparedProgram => {
  const fading = fadingSignals(program);
  const listens = new Set(program.starts.map(({ event }) => event));
  const followed = program.holds.flatMap((_, hold) => followedHold(program, fading, hold));
  const follows = followed.length > 0;
  const changes = new Map<number, Set<number>>();
  for (const { change, hold } of program.starts) {
    if (change === undefined) continue;
    const holds = changes.get(change);
    if (holds === undefined) changes.set(change, new Set([hold]));
    else holds.add(hold);
  }
  return {
    program,
    bands: bandsOf(program, rooms),
    patch: program.signals.findIndex(({ kind }) => kind === 'patch'),
    readsTempo: program.signals.some(({ kind }) => kind === 'tempo'),
    readsTime: program.signals.some((one) => one.kind === 'held' && one.within !== undefined),
    fading,
    listens,
    followed,
    noteOffHolds: new Set(
      program.starts.filter(({ event }) => event === 'note-off').map(({ hold }) => hold),
    ),
    changes,
    follows,
    keysAreInert: !follows && !program.signals.some(({ kind }) => keyed.has(kind)),
  };
};

/** A hold, if voices have to be followed for its sake. */
const followedHold = (
  { starts }: Program,
  fading: readonly number[],
  hold: number,
): readonly FollowedHold[] => {
  const own = starts.filter((start) => start.hold === hold);
  const waits = own.some(({ event }) => waitsFor.has(event));
  if (own.length === 0 || (fading.length === 0 && !waits)) return [];
  const releases = own
    .filter(({ fades }) => fades.length > 0)
    .map(({ releaseSeconds }) => releaseSeconds);
  return [{ hold, releases: [...new Set(releases)].sort((a, b) => a - b), waits }];
};

const waitsFor: ReadonlySet<StartEvent> = new Set(['note-off', 'release', 'restrike', 'cut']);
