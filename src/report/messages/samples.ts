import type { SampleFindings } from '../../terms/findings/samples.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

const nothingToDo = 'Nothing needs to be done.';
const copyAgain = 'Copy the files again from where they came.';

const quoted = (text: string): string => `"${printable(text)}"`;

/** The names that are known, and how many more there are. */
const named = (samples: number, first: readonly string[]): string => {
  const rest = samples - first.length;
  return first.map(quoted).join(', ') + (rest > 0 ? ` and ${formatCount(rest)} more` : '');
};

const one = (samples: number, singular: string, several: string): string =>
  samples === 1 ? singular : several;

/** Others of the same kind than the one that is named. */
const others = (samples: number): string =>
  samples === 1 ? '' : `, and so with ${formatCount(samples - 1)} more`;

/** Why a header gave no size, in a sub-clause; what to do about it. */
interface Fault {
  readonly because: (detail: string) => string;
  readonly hint: string;
}

const convert = 'Save such files as WAV, AIFF, FLAC or Ogg Vorbis; other kinds are not read.';

const because = (text: string, hint: string): Fault => ({ because: () => text, hint });

const faults: Readonly<Record<string, Fault>> = {
  empty: because('no bytes are in it', copyAgain),
  'not-audio': {
    because: (detail) => `it begins with ${quoted(detail)}, as no sound file does`,
    hint: convert,
  },
  unsupported: {
    because: (detail) => `it is of a kind that is not read (${printable(detail)})`,
    hint: convert,
  },
  cut: {
    because: (detail) => `the file ends too early (in ${quoted(detail)})`,
    hint: copyAgain,
  },
  'chunk-missing': {
    because: (detail) => `the block ${quoted(detail)} is missing in it`,
    hint: copyAgain,
  },
  'no-sound': because('there is no sound in it', nothingToDo),
  impossible: {
    because: (detail) => `a number in it can not be (${printable(detail)})`,
    hint: copyAgain,
  },
  'length-unknown': because(
    'it does not say how long it is',
    'Save such files again: a finished file says how many frames it has.',
  ),
  scattered: because('what is needed of it lies too far apart', 'Save such files again.'),
  'path-not-a-file': because(
    'there is no file at this path but something else, such as a folder',
    'Correct the path in the instrument.',
  ),
  'path-unreadable': {
    because: (detail) => `the system refused to read it (${printable(detail)})`,
    hint: 'Check that you may read these files and that their disk is connected.',
  },
  'path-changed-while-read': because(
    'it changed while it was being read',
    'Run the command again when nothing writes to it.',
  ),
};

/** What was taken of a header that is not all right, and what makes its figure uncertain. */
const remarks: Readonly<Record<string, readonly [text: string, hint: string]>> = {
  'sound-cut': ['ends before its sound does', copyAgain],
  'size-unset': [
    'does not say how much sound it holds, so all of it up to its end was counted',
    nothingToDo,
  ],
  'frame-size': [
    'contradicts itself in how many bytes a frame has; what follows from its width and channels was taken',
    nothingToDo,
  ],
  'frame-count': [
    'contradicts itself in how many frames it has; what fits its bytes was taken',
    nothingToDo,
  ],
  'end-missing': ['has no proper end, so its length is what its last whole part says', copyAgain],
};

/** Samples in files of their own. */
export const sampleWording: Wording<keyof SampleFindings> = {
  'samples-missing': ({ samples, regions, first }) =>
    words(
      `${plural(samples, 'sample')} of ${plural(regions, 'region')} ${one(samples, 'is', 'are')} missing, and ${one(samples, 'its', 'their')} memory is not counted: ${named(samples, first)}.`,
      'Copy the missing files to these places; their paths start at the folder of the instrument.',
    ),
  'sample-case': ({ samples, path, found }) =>
    words(
      `The sample ${quoted(path)} is named ${quoted(found)} on this disk${others(samples)}; the two differ in capitals or accents, and it was read all the same.`,
      'Write such names as they are on the disk, since some players will not find them.',
    ),
  'sample-outside': ({ samples, first }) =>
    words(
      `${plural(samples, 'sample')} ${one(samples, 'lies', 'lie')} outside the folder of the instrument: ${named(samples, first)}.`,
      `${nothingToDo} Only take ${one(samples, 'it', 'them')} along when the instrument is copied elsewhere.`,
    ),
  'sample-default-path': ({ samples, path, found }) =>
    words(
      `The sample ${quoted(path)} is not there, but ${quoted(found)} is${others(samples)}; it was read, as players do that keep default_path from one <control> to the next.`,
      'Write default_path under every <control>, since other players start afresh there.',
    ),
  'sample-header-unreadable': ({ fault, detail, samples, first }) => {
    const { because: why, hint } = faults[fault] ?? because(printable(fault), copyAgain);
    return words(
      samples === 1
        ? `The sample ${named(samples, first)} could not be read, and its memory is not counted: ${why(detail)}.`
        : `${plural(samples, 'sample')} could not be read, and their memory is not counted: ${named(samples, first)}. Of the first: ${why(detail)}.`,
      hint,
    );
  },
  'sample-header-odd': ({ remark, samples, first }) => {
    const [text, hint] = remarks[remark] ?? [printable(remark), nothingToDo];
    return words(
      samples === 1
        ? `The sample ${named(samples, first)} ${text}.`
        : `In ${plural(samples, 'sample')} the same is odd: ${named(samples, first)}. The first ${text}.`,
      hint,
    );
  },
  'sample-width-assumed': ({ samples, width, first }) =>
    words(
      `${plural(samples, 'sample')} ${one(samples, 'is', 'are')} compressed, and counted as a player holds ${one(samples, 'it', 'them')} once unpacked, at ${formatBytes(width)} a sample point: ${named(samples, first)}.`,
      'If your player unpacks to another width, write it in the template, as in width: 24 bit.',
    ),
  'samples-paths-too-long': ({ limit }) =>
    words(
      `The paths of all samples together have more than ${formatCount(limit)} characters, which is more than this tool takes on.`,
      'Shorten default_path, or split the instrument into smaller ones.',
    ),
};
