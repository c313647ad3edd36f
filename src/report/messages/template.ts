import type { TemplateFindings } from '../../terms/findings/templates.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, plural } from '../format.ts';
import { keyPath } from './key-path.ts';
import { forExample, templateValueWording } from './template-values.ts';
import { templateYamlWording } from './template-yaml.ts';
import { words, type Wording } from './words.ts';

const quoted = (text: string): string => `"${printable(text)}"`;

const listed = (names: readonly string[]): string => names.map(printable).join(', ');

const within = (path: readonly (string | number)[]): string =>
  path.length === 0 ? 'at the top of a template' : `in ${keyPath(path)}`;

/** Where something is declared. */
const sections: Readonly<Record<string, string>> = {
  machine: 'machines',
  player: 'players',
  instrument: 'instruments',
};

const sectionOf = (kind: string): string => sections[kind] ?? printable(kind);

/** What may not be in an id. */
const idReasons: Readonly<Record<string, string>> = {
  empty: 'is empty',
  blanks: 'begins or ends with a space',
  unprintable: 'has signs in it that cannot be seen',
};

/** What comes twice. */
const repeated: Readonly<Record<string, (text: string) => string>> = {
  cue: (text) => `The reel names cue ${text} twice`,
  pin: (text) => `The same pin for ${text} stands here twice`,
  name: (text) => `The word ${text} stands here twice under names`,
  reading: (text) => `There are two readings for ${text}`,
  heading: (text) => `The heading ${text} is given to two columns`,
};

/** Keys that only make sense with another. */
const companions: Readonly<Record<string, string>> = {
  streamed: 'only means something for a player with loads: streamed',
  zones: 'only means something beside zones: an .sf2 or .sfz file says itself which key is which',
  file: 'only means something beside file: a table of zones has no presets',
  bank: 'only means something with an .sf2 file: an SFZ file has no presets',
};

const alone = (needs: string): string =>
  companions[needs] ?? `only means something beside ${printable(needs)}`;

/** Why a key changes nothing. */
const idle: Readonly<Record<string, string>> = {
  own: 'every instrument names its own',
  'no-tracks': 'there is no table of tracks',
};

/** Why a table can't be read, in a few words. */
const tableReasons: Readonly<Record<string, string>> = {
  'path-missing': 'there is nothing at this path',
  'path-not-a-file': 'it is not a file',
  'path-changed-while-read': 'it changed while it was being read',
};

/** What a template does not do in this version. */
const later: Readonly<Record<string, string>> = { outline: 'an outline' };

/** The template. */
export const templateWording: Wording<keyof TemplateFindings> = {
  ...templateYamlWording,
  ...templateValueWording,
  'template-empty': () =>
    words(
      'The template is empty, or holds nothing but remarks.',
      'Write which instruments there are and which tracks they play; keepset draft makes a first template from your cues.',
    ),
  'template-too-large': ({ bytes, limit }) =>
    words(
      `The file is ${formatBytes(bytes)} large; a template has at most ${formatBytes(limit)}.`,
      'Check that this is the template; many rules can stand in a table of tracks.',
    ),
  'template-too-deep': ({ levels }) =>
    words(
      `Lists and keys stand more than ${plural(levels, 'level')} deep in each other here.`,
      'A template needs five at most: check for brackets that are not closed.',
    ),
  'template-not-keys': ({ shape }) =>
    words(
      `The file begins with ${shape === 'list' ? 'a list' : 'a text'}; a template begins with a key.`,
      'Write each key with a colon behind it, as in "slack: 60 ms"; rules stand below the key routes.',
    ),
  'template-key-repeated': ({ key, line }) =>
    words(
      `The key ${quoted(key)} stands here a second time; the first is in line ${String(line)}.`,
      'Put both parts below one key, or take one of them out.',
    ),
  'template-key-odd': ({ reason }) =>
    words(
      reason === 'empty'
        ? 'The key before this colon is empty.'
        : 'A key has to be a single text; here a list or a group of keys stands in its place.',
      'Write a name before the colon; one with brackets in it has to be in quotation marks.',
    ),
  'template-key-unknown': ({ key, within: path, near, known, example }) =>
    words(
      `There is no key ${quoted(key)} ${within(path)}.`,
      `${near === null ? `Keys that can be there: ${listed(known)}.` : `Did you mean ${printable(near)}?`} ${forExample(example)}`,
    ),
  'template-key-missing': ({ key, within: path, example }) =>
    words(
      `The key ${quoted(key)} is missing ${within(path)}.`,
      `It has to be there. ${forExample(example)}`,
    ),
  'template-key-alone': ({ path, needs, example }) =>
    words(
      `The key ${keyPath(path)} ${alone(needs)}.`,
      `Take it out, or write both. ${forExample(example)}`,
    ),
  'template-id': ({ kind, id, reason }) =>
    words(
      `The name ${quoted(id)} of this ${printable(kind)} ${idReasons[reason] ?? printable(reason)}, so nobody could type it as it is.`,
      'Write a short name, such as low-strings.',
    ),
  'template-undeclared': ({ kind, id, near, declared }) =>
    words(
      `There is no ${printable(kind)} ${quoted(id)} under ${sectionOf(kind)}.`,
      near !== null
        ? `Did you mean ${printable(near)}?`
        : declared.length === 0
          ? `Declare it under ${sectionOf(kind)}; none is declared yet.`
          : `Declare it under ${sectionOf(kind)}, or use one of those that are there: ${listed(declared)}.`,
    ),
  'template-unassigned': ({ kind, instrument, declared }) =>
    words(
      `Instrument ${printable(instrument)} does not say which ${printable(kind)} it is for, and there are several: ${listed(declared)}.`,
      `Write ${printable(kind)}: ${declared.slice(0, 1).map(printable).join()} beside its file, or once for all: defaults: { ${printable(kind)}: ${declared.slice(0, 1).map(printable).join()} } at the top.`,
    ),
  'template-source': ({ instrument, given, example }) =>
    words(
      given.length === 0
        ? `Instrument ${printable(instrument)} does not say where its samples are defined.`
        : `Instrument ${printable(instrument)} has ${listed(given)} together, and can only have one of them.`,
      `Write file with a SoundFont bank or an SFZ file, or zones with a table. ${forExample(example)}`,
    ),
  'template-source-later': ({ instrument, kind }) =>
    words(
      `Instrument ${printable(instrument)} is defined by ${later[kind] ?? printable(kind)}, which this version does not read yet.`,
      'A table of zones can describe it until then: zones with a .csv file, and middle-c.',
    ),
  'template-repeated': ({ kind, text, line }) =>
    words(
      `${repeated[kind]?.(quoted(text)) ?? `${quoted(text)} stands here twice`}; the first time in line ${String(line)}.`,
      'Take one of them out.',
    ),
  'template-settle-damage': () =>
    words(
      'Damage cannot be settled here: what a damaged cue plays is unknown, and it is for you to decide cue by cue.',
      'Take the line out and export the cue again; or accept its damage on the command line with --accept-damage and the name of the cue.',
    ),
  'template-tracks': ({ path, reason }) =>
    words(
      `The table of tracks ${printable(path)} cannot be read: ${tableReasons[reason] ?? 'check that the disk is connected and that you may read it'}.`,
      'Its path starts from the folder of the template, with / between folders.',
    ),
  'template-key-idle': ({ path, reason }) =>
    words(
      `The key ${keyPath(path)} changes nothing: ${idle[reason] ?? printable(reason)}.`,
      'Nothing needs to be done; take it out if it is no longer needed.',
    ),
  'template-unused': ({ kind, id }) =>
    words(
      `No instrument is for the ${printable(kind)} ${quoted(id)}.`,
      'Nothing needs to be done if that is meant.',
    ),
  'template-more-faults': ({ more }) =>
    words(
      `The template has ${plural(more, 'more mistake')} that ${more === 1 ? 'is' : 'are'} not listed.`,
      'Mend those that are listed first.',
    ),
};
