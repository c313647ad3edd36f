import { printable } from '../../terms/printable.ts';
import type { UsageFileFindings } from '../../terms/findings/usage-files.ts';
import { words, type Wording } from './words.ts';

const again =
  'Make it again with keepset usage --template keepset.yaml --format json -o usage.json.';

/** What belongs in a place, by the word for it. */
const expectations: ReadonlyMap<string, string> = new Map([
  ['keys', 'keys and values belong there'],
  ['list', 'a list belongs there, of another length or not empty'],
  ['text', 'another text belongs there'],
  ['number', 'another number belongs there'],
  ['true-false', 'true or false belongs there'],
  ['word', 'one of a few words belongs there'],
  ['no-more-keys', 'there is no such key'],
  ['reference', 'it points to something that is not there'],
  ['order', 'the order is wrong'],
  ['finding', 'there is no such finding'],
]);

const differences: ReadonlyMap<string, string> = new Map([
  ['controller-rooms', 'with another room around controllers'],
  ['places', 'one of them with --rare'],
  ['newest', 'one of them with --newest'],
  ['split', 'one of them split at markers'],
]);

const states: ReadonlyMap<string, string> = new Map([
  ['changed', 'has changed since this usage was made'],
  ['missing', 'is not in this usage'],
  ['unknown', 'is in this usage, and not in the plan'],
]);

/** Files of usage. */
export const usageFileWording: Wording<keyof UsageFileFindings> = {
  'usage-file-json': ({ cut }) =>
    words(
      cut ? 'This usage file ends in the middle.' : 'This is no usage file: it is not JSON.',
      cut ? again : 'Name a file that keepset usage has written with --format json.',
    ),
  'usage-file-schema': ({ schema }) =>
    words(
      schema === null
        ? 'This is JSON, and no usage of instruments.'
        : schema === 'keepset/usage@1'
          ? 'This usage was made without instruments: it does not say what they are asked for.'
          : `This is no usage of instruments: it calls itself ${printable(schema)}.`,
      again,
    ),
  'usage-file-value': ({ where, expected }) =>
    words(
      `This usage file is not as keepset wrote it: at ${printable(where)}, ${expectations.get(expected) ?? 'something else belongs there'}.`,
      again,
    ),
  'usage-file-template': () =>
    words(
      'This usage was made with another template: its tracks may have gone to other instruments.',
      'Run keepset usage again with this template, or plan with the template it was made with.',
    ),
  'usage-file-instrument': ({ instrument, state }) =>
    words(
      `Instrument ${printable(instrument)} ${states.get(state) ?? 'is not the same'}: zones can't be told from it.`,
      'Run keepset usage again with the instruments that the plan is for.',
    ),
  'usage-file-room': ({ wanted, rooms }) =>
    words(
      `The plan asks for ${String(wanted)} steps of room around controllers, and this usage can tell ${rooms.length === 0 ? 'none' : `none, ${rooms.map(String).join(', ')}`}.`,
      `Run keepset usage again with --headroom controller=${String(wanted)}, or plan with --headroom controller=${String(rooms.at(-1) ?? 0)}.`,
    ),
  'usage-file-places': () =>
    words(
      'This usage holds a few places of each kind of note, and rare notes are counted one by one.',
      'Run keepset usage again with --rare, or leave it out here.',
    ),
  'usage-file-split': () =>
    words(
      'This usage holds each file as one cue, and the plan is to split files at their markers.',
      'Run keepset usage again with --split markers, or leave it out here.',
    ),
  'usage-files-differ': ({ other, by }) =>
    words(
      `This usage and ${printable(other)} were not made alike: ${differences.get(by) ?? 'they differ'}.`,
      'Run keepset usage on all cues with the same options.',
    ),
  'usage-files-cue': ({ cue, files }) =>
    words(
      `Cue ${printable(cue)} comes as several files that were read in different runs (${files.map(printable).join(', ')}): their ports can't be told apart.`,
      'Run keepset usage on all files of a cue at once.',
    ),
  'usage-files-changed': ({ path }) =>
    words(
      `Cue file ${printable(path)} is not the same in all usage files: it was exported anew in between, or read together with other files.`,
      'Give the newer usage only, or run keepset usage again on this cue.',
    ),
};
