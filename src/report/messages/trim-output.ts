import type { TrimFindings } from '../../terms/findings/trims.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes } from '../format.ts';
import { words, type Wording } from './words.ts';

const quoted = (name: string): string => `"${printable(name)}"`;

/** Where smaller instruments go, and what stands in the way there. */
export const trimOutputWording: Wording<
  | 'trim-out-exists'
  | 'trim-out-others'
  | 'trim-out-kind'
  | 'trim-out-input'
  | 'trim-no-space'
  | 'trim-too-large'
  | 'trim-names-collide'
  | 'trim-path'
  | 'trim-old-left'
> = {
  'trim-out-exists': ({ reason }) =>
    reason === 'ours'
      ? words(
          'Smaller instruments were written here before; they were left as they are.',
          'Type --force to write the folder again: what trim wrote there before is then gone. Or name another folder: --out NAME.',
        )
      : words(
          'There is already something in the folder for the output that keepset did not write; it was left as it is.',
          'Name a folder that is not there yet: --out NAME.',
        ),
  'trim-out-others': ({ names }) =>
    words(
      `The folder for the output also holds what keepset did not write: ${names.map(quoted).join(', ')}. Nothing in it was touched.`,
      'Move these files elsewhere, or name another folder: --out NAME. --force replaces only what trim wrote; of sounds it goes by their sizes.',
    ),
  'trim-out-kind': ({ kind }) =>
    kind === 'link'
      ? words(
          'What is to be the folder for the output is a link, and nothing is written through links.',
          'Name the folder itself, or a new one: --out NAME.',
        )
      : words(
          'What is to be the folder for the output is a file; it was left as it is.',
          'Name a folder that is not there yet: --out NAME.',
        ),
  'trim-out-input': ({ input }) =>
    words(
      `The folder for the output would take the place of ${quoted(input)}, which is read. Nothing was written.`,
      'Name a folder of its own, apart from cues, template and instruments: --out NAME.',
    ),
  'trim-no-space': ({ needed, free }) =>
    words(
      `The smaller instruments take ${formatBytes(needed)}, and the disk has ${formatBytes(free)} free. Nothing was written.`,
      'Make room there, or name a folder on another disk: --out NAME.',
    ),
  'trim-too-large': ({ bytes }) =>
    words(
      `It would have ${formatBytes(bytes)}, and a file of its kind can not be larger than 4 GiB. Nothing was written.`,
      'Settle doubts that you can answer and plan again; or split the bank, then plan again.',
    ),
  'trim-old-left': ({ path }) =>
    words(
      `The folder that was there before could not be removed; it is now ${quoted(path)}.`,
      'Delete it when you need it no more. The new folder is whole.',
    ),
  'trim-names-collide': ({ first, second }) =>
    words(
      `Some disks do not tell capitals or forms of accents apart; there ${quoted(first)} and ${quoted(second)} are one name, and one file would replace the other. Nothing was written.`,
      'Rename one of them, also where the instrument or the template names it, and plan again.',
    ),
  'trim-path': ({ path, reason }) => {
    const [because, hint] = noPlace(reason);
    return words(`The file ${quoted(path)} ${because}. Nothing was written.`, hint);
  },
};

/** Why a file has no place in the output, and what to do. */
const noPlace = (
  reason: TrimFindings['trim-path']['reason'],
): readonly [because: string, hint: string] => {
  switch (reason) {
    case 'absolute':
      return [
        'is named by its whole path, from the root of the disk: a copy of it would never be looked at',
        'Put all files of the instrument below one folder, name them from there, and plan again.',
      ];
    default:
      return [
        'can not have a place in the output: its path leads out of the folder, or holds signs that no name should have',
        'Rename the file, also where the instrument names it, and plan again.',
      ];
  }
};
