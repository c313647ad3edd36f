import { percussionChannel, programName } from '../terms/general-midi.ts';
import { keyLabel, keyRangeLabel } from '../terms/key.ts';
import { printable } from '../terms/printable.ts';
import type { Seen } from './draft.ts';
import type { DraftTrack } from './collect-tracks.ts';

/** Things of a kind that are listed, and characters of a name. */
const mostListed = 12;
const longestName = 60;

const list = (items: readonly string[]): string =>
  items.length <= mostListed
    ? items.join(', ')
    : `${items.slice(0, mostListed).join(', ')} and ${String(items.length - mostListed)} more`;

/** @example count(2, 'cue') // '2 cues' */
export const count = (number: number, one: string): string =>
  `${String(number)} ${one}${number === 1 ? '' : 's'}`;

const several = (word: string, numbers: readonly number[]): string =>
  `${word}${numbers.length === 1 ? '' : 's'} ${list(numbers.map(String))}`;

/** A name as a comment shows it: short and printable. */
export const shownName = (name: string): string => {
  if (name === '') return '(no name)';
  const letters = [...name.slice(0, 4 * longestName)];
  const start = letters.slice(0, longestName).join('');
  // YAML allows them nowhere, and nobody sees them.
  const allowed = start.replace(/[\ufffe\uffff]/g, '\ufffd');
  return printable(letters.length > longestName ? `${allowed}…` : allowed);
};

/** On the percussion channel a program is a kit, which has no name in General MIDI. */
const programs = ({ programs: numbers, channels }: Seen): string => {
  const [only] = numbers;
  const name = numbers.length === 1 && only !== undefined ? programName(only) : null;
  const isPercussion = channels.includes(percussionChannel);
  return `${several('program', numbers)}${name === null || isPercussion ? '' : ` (${name} in General MIDI)`}`;
};

/**
 * What was seen of tracks, in a line. Keys have their numbers, as programs disagree on octaves.
 *
 * @param middleC the octave of key 60
 */
export const describeSeen = (seen: Seen, middleC = 4): string => {
  const { cues, notes, keys, velocities, controllers, ports, channels, likelySwitches } = seen;
  const velocity = velocities && (velocities[0] === velocities[1] ? [velocities[0]] : velocities);
  return [
    [
      count(cues, 'cue'),
      count(notes, 'note'),
      ...(keys === null ? [] : [`keys ${keyRangeLabel(keys, middleC)}`]),
      ...(velocity === null ? [] : [`velocities ${velocity.join('-')}`]),
      ...(controllers.length === 0 ? [] : [`CC ${list(controllers.map(String))}`]),
    ].join(', '),
    [several('port', ports), several('channel', channels)].join(', '),
    ...(seen.programs.length === 0 ? [] : [programs(seen)]),
    ...(likelySwitches.length === 0
      ? []
      : [`likely switches ${list(likelySwitches.map((key) => keyLabel(key, middleC)))}`]),
  ].join('; ');
};

/** The names of a group's tracks, in a line. */
export const describeNames = ({
  tracks,
}: {
  readonly tracks: readonly Pick<DraftTrack, 'folded' | 'name'>[];
}): string =>
  list([...new Map(tracks.map(({ folded, name }) => [folded, shownName(name)])).values()]);
