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
  readonly fading: readonly number[];
  /** Release times of fading zones in seconds, ascending. */
  readonly releases: readonly number[];
  readonly listens: ReadonlySet<StartEvent>;
  /** Voices are followed only where a release or a fade depends on them. */
  readonly follows: boolean;
  /** No signal follows keys: on a tick of notes alone, their order says nothing. */
  readonly keysAreInert: boolean;
}

const prepared = new WeakMap<Program, Map<number, PreparedProgram>>();

/** @param room how far controllers may later be widened: values closer than that to a limit stay apart */
export const prepare = (program: Program, room = 0): PreparedProgram => {
  let byRoom = prepared.get(program);
  if (byRoom === undefined) prepared.set(program, (byRoom = new Map<number, PreparedProgram>()));
  let found = byRoom.get(room);
  if (found === undefined) byRoom.set(room, (found = examine(program, room)));
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

const examine = (program: Program, room: number): PreparedProgram => {
  const fading = fadingSignals(program);
  const listens = new Set(program.starts.map(({ event }) => event));
  const follows = fading.length > 0 || listens.has('release') || listens.has('note-off');
  const releases = program.starts
    .filter(({ fades }) => fades.length > 0)
    .map(({ releaseSeconds }) => releaseSeconds);
  return {
    program,
    bands: bandsOf(program, room),
    patch: program.signals.findIndex(({ kind }) => kind === 'patch'),
    readsTempo: program.signals.some(({ kind }) => kind === 'tempo'),
    fading,
    releases: [...new Set(releases)].sort((a, b) => a - b),
    listens,
    follows,
    keysAreInert: !follows && !program.signals.some(({ kind }) => keyed.has(kind)),
  };
};
