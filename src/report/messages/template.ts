import type { TemplateFindings } from '../../terms/findings/templates.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes } from '../format.ts';
import { keyPath } from './key-path.ts';
import { words, type Wording } from './words.ts';
import { forExample } from './yaml-values.ts';

const quoted = (text: string): string => `"${printable(text)}"`;

const listed = (names: readonly string[]): string => names.map(printable).join(', ');

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

/** Keys that only make sense with another. */
const companions: Readonly<Record<string, string>> = {
  streamed: 'only means something for a player with loads: streamed',
  zones: 'only means something beside zones: an .sf2 or .sfz file says itself which key is which',
  file: 'only means something beside file: tables of zones and outlines have no presets',
  named: 'only means something beside zones or outline: an .sf2 or .sfz file names no microphones',
  outlined: 'only means something beside zones: an outline says itself which key is which',
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

/** The template. */
export const templateWording: Wording<keyof TemplateFindings> = {
  'template-reserve': ({ machine, memory, reserve }) =>
    words(
      `Machine ${printable(machine)} has ${formatBytes(memory)} of memory and keeps ${formatBytes(reserve)} in reserve, so nothing is left for samples.`,
      'The reserve is what the system and other programs need; write less than the memory of the machine.',
    ),
  'template-too-large': ({ bytes, limit }) =>
    words(
      `The file is ${formatBytes(bytes)} large; a template has at most ${formatBytes(limit)}.`,
      'Check that this is the template; many rules can stand in a table of tracks.',
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
      `Write file with a SoundFont bank or an SFZ file, zones with a table, or outline with what its manual says. ${forExample(example)}`,
    ),
  'template-microphone': ({ instrument, name, near, known }) =>
    words(
      `Instrument ${printable(instrument)} has no microphone ${quoted(name)}.`,
      near !== null
        ? `Did you mean ${printable(near)}?`
        : known.length === 0
          ? 'Its definition names none; take the key microphones out.'
          : `Its microphones: ${listed(known)}.`,
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
};
