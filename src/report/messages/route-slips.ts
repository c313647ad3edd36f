import type { RouteFindings } from '../../terms/findings/routes.ts';
import { printable } from '../../terms/printable.ts';
import { formatCount } from '../format.ts';
import { words, type Wording } from './words.ts';

/** Characters of a pattern that a sentence holds. */
const longest = 80;

const quoted = (text: string): string => {
  const letters = [...text.slice(0, 2 * longest)];
  const cut = letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : text;
  return `"${printable(cut)}"`;
};

/** Fields whose keys in the file are called otherwise. */
const keys: Readonly<Record<string, string>> = {
  tracks: 'track',
  joinWord: 'join',
  instruments: 'instrument',
};

const key = (field: string): string => keys[field] ?? printable(field);

/** What a pattern has wrong: the rest of a sentence, and what to write. */
const slips: Readonly<Record<string, readonly [string, string]>> = {
  'brace-open': [
    'opens a brace { that is not closed',
    'Close it, as in {art}; write \\{ for the sign itself.',
  ],
  'brace-close': [
    'closes a brace } that was not opened',
    'Write {art} for a part of the name that is to be used; write \\} for the sign itself.',
  ],
  'capture-empty': [
    'has braces with nothing in them',
    'Write a word between them, as in {art}, or * if that part of the name does not matter.',
  ],
  'capture-twice': [
    'uses one word in braces twice',
    'Give the second one another word, or write * there.',
  ],
  'wildcards-touch': [
    'has two wildcards side by side, so where the first one ends is not certain',
    'Put what divides them in between, such as a space, or take one out.',
  ],
  'too-long': ['is longer than 500 characters', 'Shorten it; * stands for any text.'],
};

/** What a number has to be. */
const numbers: Readonly<Record<string, string>> = {
  port: 'Ports are whole numbers, counted from 1.',
  channel: 'Channels are whole numbers, counted from 1.',
  transpose: 'Write semitones as a whole number: -12 is an octave down.',
  velocity: 'Write a factor: 0.9 makes notes a little softer, 1 leaves them as they are.',
  controllers: 'Write the number of a controller in the cue and the one it becomes.',
};

const range = (field: string, lo: number, hi: number): string =>
  field === 'velocity'
    ? `above ${formatCount(lo)} and at most ${formatCount(hi)}`
    : `from ${String(lo)} to ${formatCount(hi)}`;

/** Rules that can't be used as they are written. */
export const routeSlips: Wording<
  Exclude<
    Extract<keyof RouteFindings, `route-${string}`>,
    'route-unused' | 'route-shadowed' | 'route-articulation'
  >
> = {
  'route-pattern': ({ field, pattern, problem, column }) => {
    const [what, hint] = slips[problem] ?? [
      `cannot be used (${printable(problem)})`,
      'Write it in another way.',
    ];
    return words(
      `The text ${quoted(pattern)} of ${key(field)} ${what}, at character ${formatCount(column)}.`,
      hint,
    );
  },
  'route-without-tracks': () =>
    words(
      'This rule does not say which tracks it is for.',
      'Write track with a name or a pattern, such as "Hn*"; * alone is every track.',
    ),
  'route-tracks-and-join': () =>
    words(
      'This rule has both track and join.',
      'Use join for tracks that drive one copy together, else track.',
    ),
  'route-join-one': ({ pattern }) =>
    words(
      pattern === ''
        ? 'This rule joins no tracks.'
        : `This rule joins only one pattern, ${quoted(pattern)}.`,
      'Name at least two, as in ["Cel", "Cel switches"], or use track.',
    ),
  'route-join-captures': ({ first, second }) =>
    words(
      `The patterns ${quoted(first)} and ${quoted(second)} are to be joined, but they do not have the same words in braces, so their tracks would never meet.`,
      'Use the same words in both, or * where the text does not matter.',
    ),
  'route-capture': ({ field, capture, pattern }) =>
    words(
      `The text of ${key(field)} uses {${printable(capture)}}, which ${quoted(pattern)} does not have.`,
      `Put {${printable(capture)}} where it stands in the name of the track, or write the ${key(field)} itself.`,
    ),
  'route-without-outcome': ({ rule }) =>
    words(
      `The rule ${printable(rule)} does not say what plays these tracks.`,
      'Name an instrument, or set ignore if nothing plays them.',
    ),
  'route-ignore-and': ({ rule, field }) =>
    words(
      `The rule ${printable(rule)} ignores its tracks and has ${key(field)} as well.`,
      'Take out one of the two.',
    ),
  'route-instrument-twice': ({ rule, instrument }) =>
    words(
      `The rule ${printable(rule)} names the instrument ${printable(instrument)} twice.`,
      'Name it once: one rule sends a track to one copy of an instrument.',
    ),
  'route-number': ({ field, value, lo, hi }) =>
    words(
      `The ${key(field)} of this rule is ${String(value)}; it has to be ${range(field, lo, hi)}.`,
      numbers[field] ?? 'Write a number in that range.',
    ),
};
