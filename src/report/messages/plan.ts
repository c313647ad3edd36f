import type { PlanFindings } from '../../terms/findings/plans.ts';
import { keyLabel } from '../../terms/key.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

/** The plan as a whole. */
export const planWording: Wording<keyof PlanFindings> = {
  'instrument-unused': ({ instrument, bytes }) =>
    words(
      `No cue plays ${printable(instrument)}; leaving it unloaded frees ${formatBytes(bytes)}.`,
      'Check that every cue was given, and keep the instrument if a cue is still to come.',
    ),
  'instrument-printed': ({ instrument, bytes }) =>
    words(
      `Only printed tracks play ${printable(instrument)}; leaving it unloaded frees ${formatBytes(bytes)}.`,
      'Keep it loaded if a printed track may have to be played again.',
    ),
  'notes-without-zone': ({ instrument, notes, keys: played, cues, tracks }) =>
    words(
      `${plural(notes, 'note')} of ${printable(instrument)} ${notes === 1 ? 'reaches' : 'reach'} no zone: ${keys(played)}, on ${listed(tracks.map((name) => name ?? ''))} in ${counted(cues, 'cue')}.`,
      `By its definition the instrument is silent there. Check keys, velocities and middle-c with keepset inspect, and the route's transpose.`,
    ),
  'settled-silent': ({ instrument, notes, doubts, cues }) =>
    words(
      `${plural(notes, 'note')} of ${printable(instrument)} in ${counted(cues, 'cue')} would be silent: ${printable(doubts.join(' and '))} ${doubts.length === 1 ? 'was' : 'were'} settled as plain, and nothing else lets them sound.`,
      'Take the answer back, or name the articulation in the route of these tracks.',
    ),
  'nothing-saved': () =>
    words(
      'The cues reach every sample, so nothing can be unloaded.',
      'Look at the doubts in the plan: settling one may free memory.',
    ),
  'machine-over-budget': ({ machine, high, budget }) =>
    words(
      `What must stay does not fit on machine ${printable(machine)}: up to ${formatBytes(high)} are needed, and ${formatBytes(budget)} may be filled.`,
      'Settle doubts that you can answer, move an instrument to another machine, or load the cues in groups.',
    ),
  'join-suggested': ({ instrument, switches, notes }) =>
    words(
      `Switches of ${printable(instrument)} stand on ${listed(switches)}, but the notes on ${listed(notes)} get none: each track is a copy of its own.`,
      `If they drive one loaded copy, - { join: [${[...notes.slice(0, 1), ...switches.slice(0, 1)].map(quoted).join(', ')}], instrument: ${printable(instrument)} } in the routes says so.`,
    ),
  'switch-octave-off': ({ instrument, expected, seen, octaves }) =>
    words(
      `No switch of ${printable(instrument)} is ever pressed (${keys(expected)}), but ${keys(seen)} ${seen.length === 1 ? 'is' : 'are'}, ${octaves === 1 || octaves === -1 ? 'an octave' : 'two octaves'} ${octaves > 0 ? 'higher' : 'lower'}.`,
      'Check middle-c of the instrument: key 60 is C3 in some programs, C4 or C5 in others.',
    ),
  'pin-articulation': ({ instrument, articulation, near }) =>
    words(
      `A pin names the articulation "${printable(articulation)}", which ${printable(instrument)} does not have; it keeps nothing.`,
      near === null
        ? 'See its articulations with keepset inspect.'
        : `Did you mean "${printable(near)}"?`,
    ),
};

const quoted = (name: string): string => JSON.stringify(printable(name));

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 3).map(quoted).join(', ');
  return names.length > 3 ? `${shown} and ${plural(names.length - 3, 'more track')}` : shown;
};

const counted = (names: readonly string[], noun: string): string =>
  names.length > 4 ? plural(names.length, noun) : names.map(printable).join(', ');

const keys = (some: readonly number[]): string =>
  some
    .slice(0, 6)
    .map((key) => keyLabel(key))
    .join(', ') + (some.length > 6 ? ', …' : '');
