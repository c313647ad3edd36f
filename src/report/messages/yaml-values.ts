import { printable } from '../../terms/printable.ts';
import { belonging, type Belonging } from './belonging.ts';
import { otherKeyName } from './key-names.ts';
import { keyPath } from './key-path.ts';
import { outlineBelongings } from './outline-values.ts';
import { words, type Wording } from './words.ts';

const alternatives = (options: readonly string[]): string => {
  const shown = options.map(printable);
  return shown.length < 2 ? shown.join() : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)!}`;
};

const belongings: Readonly<Record<string, Belonging>> = {
  ...outlineBelongings,
  text: belonging('a text', 'Write a name or a text; quotation marks are safe around anything.'),
  pattern: belonging('a name or a pattern', 'Write a name, with * for any text in it.'),
  'cue-path': belonging(
    'a path to cues',
    'Write a path with / between folders; * stands for any name.',
  ),
  'bank-path': belonging(
    'a path to a SoundFont bank or an SFZ file',
    'Write the path of an .sf2 or .sfz file with / between folders; a table of zones stands behind zones instead of file.',
  ),
  'table-path': belonging(
    'a path to a table',
    'Write the path of a .csv file with / between folders.',
  ),
  'outline-path': belonging(
    'a path to an outline',
    'Write the path of a .yaml file with / between folders.',
  ),
  microphones: belonging('at least one microphone', 'Write a name, or several between [ and ].'),
  size: belonging(
    'an amount of memory',
    'Write a number and its unit: kB, MB, GB, TB (thousands) or KiB, MiB, GiB, TiB (1024 each).',
  ),
  'byte-rate': belonging(
    'an amount of memory a second',
    'Write a number, its unit and /s, such as 300 MB/s or 1.5 GiB/s: bytes, not bits.',
  ),
  slack: belonging('a time of at most one second', 'Write a number and its unit, such as 60 ms.'),
  'middle-c': belonging(
    'the name of key 60',
    'Write C3, C4 or C5, as your keyboard or manual calls middle C.',
  ),
  head: belonging(
    'the length of the start of a sample',
    'Write an amount of memory, frames or a time: 60 KiB, 12000 frames or 500 ms.',
  ),
  width: belonging('the width of a sample point', 'Write source, 16 bit, 24 bit or 32 bit.'),
  preset: belonging(
    'a preset',
    'Write the numbers of the bank and the program with a colon between them, in quotation marks: "0:8".',
  ),
  velocities: belonging(
    'a range of velocities',
    'Write the lowest and the highest from 0 to 127, in quotation marks: "1-64".',
  ),
  'keys-of-instrument': belonging(
    'a range of keys',
    'Write the lowest and the highest key by name or by number, in quotation marks: "C2-C4" or "36-60".',
  ),
  'whole-number': {
    a: (options) => `a whole number from ${options.map(printable).join(' to ')}`,
    how: () => 'Write the number itself, without quotation marks.',
  },
  controller: belonging(
    'the number of a controller',
    'Write a whole number from 0 to 127, a colon and the number it becomes.',
  ),
  factor: belonging(
    'a factor',
    'Write a number above 0 and at most 10: 0.9 makes notes a little softer.',
  ),
  'sample-factor': belonging(
    'a factor for the sizes of samples',
    'Write a number above 0 and at most 10, with a point and without quotation marks: 1.04 counts samples 4 % larger than they are in the file.',
  ),
  choice: {
    a: () => 'one of the words that can be here',
    how: (options) => `Write ${alternatives(options)}, without quotation marks.`,
  },
  keys: belonging('a group of keys', 'Write keys with values below it, or between { and }.'),
  list: belonging(
    'a list',
    'Begin each item with a dash and a space on a line of its own, or put all between [ and ].',
  ),
};

/** What stands in the wrong place. */
const shapes: Readonly<Record<string, string>> = { list: 'a list', keys: 'a group of keys' };

/** A line that may be pasted. */
export const forExample = (example: string): string =>
  `For example: ${printable(example)} (with your own names and values).`;

/** Values that are not what belongs where they stand. */
export const yamlValueWording: Wording<'yaml-value' | 'yaml-unit-missing' | 'yaml-key-bare'> = {
  'yaml-value': ({ path, expected, options, found, shape, example }) => {
    const belongs = belongings[expected] ?? belonging(printable(expected), 'Write it differently.');
    const a = belongs.a(options);
    const stands = shapes[shape];
    if (shape === 'braces') {
      return words(
        `At ${keyPath(path)}: ${printable(found)} without quotation marks is a group of keys, not ${a}.`,
        `Put it in quotation marks: "${printable(found)}". ${forExample(example)}`,
      );
    }
    return words(
      `At ${keyPath(path)}: ${
        stands === undefined
          ? `${found === '' ? 'an empty text' : `"${printable(found)}"`} is not ${a}`
          : `${stands} stands where ${a} belongs`
      }.`,
      [belongs.how(options), ...otherKeyName(expected, found), forExample(example)].join(' '),
    );
  },
  'yaml-unit-missing': ({ path, found, unit }) =>
    words(
      `At ${keyPath(path)}: the number ${printable(found)} has no unit.`,
      `Write the unit that you mean behind it, for example "${printable(String(path.at(-1) ?? ''))}: ${printable(found)} ${printable(unit)}".`,
    ),
  'yaml-key-bare': ({ path, example }) =>
    words(
      `At ${keyPath(path)}: there is nothing after the ${typeof path.at(-1) === 'number' ? 'dash' : 'colon'}.`,
      `Write a value, or take the key out; a text that begins with # has to be in quotation marks. ${forExample(example)}`,
    ),
};
