import type { FindingArgs } from '../../terms/finding.ts';
import type { KeepFileFindings } from '../../terms/findings/keep-files.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount } from '../format.ts';
import { statedNouns, type Noun } from './keep-file-nouns.ts';
import { words, type Wording } from './words.ts';

const again = 'Make it again with keepset plan -o.';

const within = (instrument: string | null): string =>
  instrument === null ? '' : ` in ${printable(instrument)}`;

/** Texts may be whole lists. */
const longest = 80;

const shown = (value: string | number | null): string => {
  if (typeof value === 'number') return value < 0 ? String(value) : formatCount(value);
  const text = printable(value ?? '');
  if (text === '') return 'nothing';
  return text.length > longest ? `${text.slice(0, longest)}…` : text;
};

const disagreement = (args: FindingArgs['keep-file-disagrees']): string => {
  const { what, rule, of, says, is, instrument } = args;
  const [noun, kind = ''] = (statedNouns as Readonly<Record<string, Noun>>)[what] ?? ['something'];
  const owner = of === null ? '' : ` of ${kind === '' ? '' : `${kind} `}${printable(of)}`;
  const subject = `${noun.charAt(0).toUpperCase()}${noun.slice(1)}${owner}${within(instrument)}`;
  const value = shown(says);
  switch (rule) {
    case 'same':
      return `${subject} is ${value} here, and ${shown(is)} by everything else.`;
    case 'most':
      return `${subject} is ${value} here, and no more than ${shown(is)} by everything else.`;
    case 'least':
      return `${subject} is ${value} here, and no less than ${shown(is)} by everything else.`;
    case 'once':
      return `${subject} stands there twice: ${value}.`;
    case 'never':
      return `${subject} is ${value} here, which everything else rules out.`;
    default:
      return `${subject} is ${value} here, and there is nothing of that name or number.`;
  }
};

/** Reading a keep file. */
export const keepFileWording: Wording<keyof KeepFileFindings> = {
  'keep-file-json': ({ cut }) =>
    cut
      ? words(
          'The keep file ends before it is complete.',
          `Copy it again from where it was made, or ${again.charAt(0).toLowerCase()}${again.slice(1)}`,
        )
      : words(
          'This is no keep file, or it was damaged: what stands here cannot be read as JSON.',
          `Name the file that keepset plan -o wrote. ${again}`,
        ),
  'keep-file-large': ({ bytes }) =>
    words(
      `This file has ${formatBytes(bytes)}; no keep file is that large.`,
      'Name the file that keepset plan -o wrote.',
    ),
  'keep-file-schema': ({ found }) => {
    if (found === null) {
      return words(
        'This is JSON, and no keep file: it does not say what it is.',
        'Name the file that keepset plan -o wrote.',
      );
    }
    return found.startsWith('keepset/plan@')
      ? words(
          `This keep file was made by another version: it is ${printable(found)}, and keepset/plan@1 can be read here.`,
          again,
        )
      : words(
          `This is no keep file: it says that it is ${shown(found)}.`,
          'Name the file that keepset plan -o wrote.',
        );
  },
  'keep-file-shape': ({ at, expected, instrument }) =>
    words(
      `Here should be ${printable(expected)}: ${printable(at)}${within(instrument)}.`,
      `The keep file was changed after it was made. ${again}`,
    ),
  'keep-file-disagrees': (args) =>
    words(
      disagreement(args),
      `The keep file was changed after it was made, or put together from several. ${again}`,
    ),
};
