import type { YamlFindings } from '../../terms/findings/yaml.ts';
import { printable } from '../../terms/printable.ts';
import { plural } from '../format.ts';
import { keyPath } from './key-path.ts';
import { words, type Wording } from './words.ts';
import { yamlSyntaxWording } from './yaml-syntax.ts';
import { forExample, yamlValueWording } from './yaml-values.ts';

const quoted = (text: string): string => `"${printable(text)}"`;

const listed = (names: readonly string[]): string => names.map(printable).join(', ');

const within = (path: readonly (string | number)[]): string =>
  path.length === 0 ? 'at the top of this file' : `in ${keyPath(path)}`;

/** What comes twice. */
const repeated: Readonly<Record<string, (text: string) => string>> = {
  cue: (text) => `The reel names cue ${text} twice`,
  pin: (text) => `The same pin for ${text} stands here twice`,
  name: (text) => `The word ${text} stands here twice under names`,
  reading: (text) => `There are two readings for ${text}`,
  heading: (text) => `The heading ${text} is given to two columns`,
  articulation: (text) => `The articulation ${text} stands here twice`,
  switch: (text) => `The row of switches names ${text} twice`,
  microphone: (text) => `The microphone ${text} stands here twice`,
};

/** What a template and an outline share: keys and values in YAML. */
export const yamlWording: Wording<keyof YamlFindings> = {
  ...yamlSyntaxWording,
  ...yamlValueWording,
  'yaml-empty': ({ document }) =>
    document === 'outline'
      ? words(
          'The outline is empty, or holds nothing but remarks.',
          'Write which octave the manual counts from, and a line for each articulation: middle-c: C4, then articulations: { sustain: { keys: G2-E5 } }.',
        )
      : words(
          'The template is empty, or holds nothing but remarks.',
          'Write which instruments there are and which tracks they play; keepset draft makes a first template from your cues.',
        ),
  'yaml-too-deep': ({ levels }) =>
    words(
      `Lists and keys stand more than ${plural(levels, 'level')} deep in each other here.`,
      'Half as many are enough: check for brackets that are not closed.',
    ),
  'yaml-not-keys': ({ document, shape }) => {
    const begins = `The file begins with ${shape === 'list' ? 'a list' : 'a text'}`;
    return document === 'outline'
      ? words(
          `${begins}; an outline begins with a key.`,
          'Write each key with a colon behind it, as in "middle-c: C4"; each articulation stands below the key articulations.',
        )
      : words(
          `${begins}; a template begins with a key.`,
          'Write each key with a colon behind it, as in "slack: 60 ms"; rules stand below the key routes.',
        );
  },
  'yaml-key-repeated': ({ key, line }) =>
    words(
      `The key ${quoted(key)} stands here a second time; the first is in line ${String(line)}.`,
      'Put both parts below one key, or take one of them out.',
    ),
  'yaml-key-odd': ({ reason }) =>
    words(
      reason === 'empty'
        ? 'The key before this colon is empty.'
        : 'A key has to be a single text; here a list or a group of keys stands in its place.',
      'Write a name before the colon; one with brackets in it has to be in quotation marks.',
    ),
  'yaml-key-unknown': ({ key, within: path, near, known, example }) =>
    words(
      `There is no key ${quoted(key)} ${within(path)}.`,
      `${near === null ? `Keys that can be there: ${listed(known)}.` : `Did you mean ${printable(near)}?`} ${forExample(example)}`,
    ),
  'yaml-key-missing': ({ key, within: path, example }) =>
    words(
      `The key ${quoted(key)} is missing ${within(path)}.`,
      `It has to be there. ${forExample(example)}`,
    ),
  'yaml-repeated': ({ kind, text, line }) =>
    words(
      `${repeated[kind]?.(quoted(text)) ?? `${quoted(text)} stands here twice`}; the first time in line ${String(line)}.`,
      'Take one of them out.',
    ),
  'yaml-more-faults': ({ more }) =>
    words(
      `There ${more === 1 ? 'is' : 'are'} ${plural(more, 'more mistake')} that ${more === 1 ? 'is' : 'are'} not listed.`,
      'Mend those that are listed first.',
    ),
};
