import type { Score, Track } from '../../midi/score.ts';
import type { Match } from './matching-rules.ts';

/** `sequence 2`; nothing for the first. */
const further = (word: string, number: number): string =>
  number === 0 ? '' : ` ${word} ${String(number + 1)}`;

/**
 * How the tracks of a file are called: by name, the second and further ones of a name with a number
 * behind it. Empty tracks do not count, nor does where a track stands: neither may change which copy
 * of another cue this is.
 */
export const trackNames = ({ tracks }: Pick<Score, 'tracks'>): ((track: Track) => string) => {
  const counts = new Map<string, number>();
  const names = new Map<number, string>();
  for (const { name, index, events, damage } of tracks) {
    if (name === null || name.trim() === '' || (events.length === 0 && damage === null)) continue;
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    names.set(index, count === 1 ? name : `${name} (${String(count)})`);
  }
  return ({ index }) => names.get(index) ?? `track ${String(index)}`;
};

/** A track that rules of several ports or channels send to one instrument: which of them. */
export const selectorName = ({ route: { port, channel } }: Match): string =>
  `${port === null ? '' : ` port ${String(port + 1)}`}${
    channel === null ? '' : ` channel ${String(channel + 1)}`
  }`;

/** What sets a copy apart from others that its first name fits as well. */
export interface CopyTraits {
  /** Which of the file's flows of time, and of the cue's files; from 0. */
  readonly sequence: number;
  readonly file: number;
  readonly articulation: string | null;
  readonly printed: boolean;
}

/** @example copyName('port 2', { sequence: 0, file: 1, articulation: null, printed: true }) // 'port 2 file 2 printed' */
export const copyName = (
  first: string,
  { sequence, file, articulation, printed }: CopyTraits,
): string =>
  first +
  further('sequence', sequence) +
  further('file', file) +
  (articulation === null ? '' : ` as ${articulation}`) +
  (printed ? ' printed' : '');

/**
 * Gives out names that are unique for each instrument of a file: a name that chance gives twice (a
 * track may be called `port 1`) gets a number.
 */
export const uniqueNames = (): ((instrument: string, name: string) => string) => {
  const taken = new Map<string, Set<string>>();
  const numbers = new Map<string, number>();
  return (instrument, name) => {
    let names = taken.get(instrument);
    if (names === undefined) taken.set(instrument, (names = new Set()));
    let unique = name;
    const key = JSON.stringify([instrument, name]);
    // Numbers go on where they stopped, so that many equal names take no longer than others.
    for (let number = numbers.get(key) ?? 2; names.has(unique); number += 1) {
      unique = `${name} (${String(number)})`;
      numbers.set(key, number + 1);
    }
    names.add(unique);
    return unique;
  };
};
