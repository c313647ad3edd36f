import { plural } from '../format.ts';
import { printable } from '../../terms/printable.ts';
import { reasonInWords } from './reasons.ts';
import { words, type Wording } from './words.ts';

const joined = (names: readonly string[]): string => names.map(printable).join(', ');

/** Cues, and the files and folders they are in. */
export const cueWording: Wording<
  | 'cue-damaged'
  | 'cue-several-files'
  | 'reel-cue-missing'
  | 'cue-versions'
  | 'cues-none'
  | 'cue-without-notes'
  | 'path-missing'
  | 'path-not-a-file'
  | 'path-unreadable'
  | 'path-changed-while-read'
  | 'output-unwritable'
  | 'output-exists'
> = {
  'cue-damaged': ({ tracks }) =>
    words(
      `Parts of this cue could not be read: ${plural(tracks, 'track')}. Whatever they could reach counts as needed.`,
      'Export the cue again before anything is unloaded; the plan may then get smaller.',
    ),
  'cue-several-files': ({ cue, files }) =>
    words(
      `Cue ${printable(cue)} comes as ${plural(files, 'file')}; they are read as one cue.`,
      'If they are different pieces, give them different cue numbers.',
    ),
  'reel-cue-missing': ({ cue, near }) =>
    words(
      `The reel names cue ${printable(cue)}, which is not among the cues.`,
      near === null
        ? 'Take it out of reel:, or give its file too.'
        : `Did you mean ${printable(near)}?`,
    ),
  'cue-versions': ({ cue, versions }) =>
    words(
      `Cue ${printable(cue)} is there in ${plural(versions.length, 'version')} (${joined(versions)}); what any of them plays counts as needed.`,
      'If only the newest counts, move the older ones out of the folder.',
    ),
  'cues-none': ({ where }) =>
    words(
      `There are no cues in ${printable(where)}.`,
      'Give the folder with the exported .mid files, or the files themselves.',
    ),
  'cue-without-notes': () =>
    words(
      'This cue plays no notes.',
      'If it should, check that the tracks were selected and not muted for the export.',
    ),
  'path-missing': () =>
    words('There is nothing at this path.', 'Check the spelling and the folder you are in.'),
  'path-not-a-file': () =>
    words(
      'This is not a file: it is a folder, or something that cannot be read through.',
      'Give the path of a file.',
    ),
  'path-unreadable': ({ reason }) =>
    words(
      `This could not be read (${reasonInWords(reason)}).`,
      'Check that the disk is connected and that you may read the file.',
    ),
  'path-changed-while-read': () =>
    words(
      'The file changed while it was being read, so what was read may mix two states of it.',
      'Wait until the export or the copy is done, then run this again.',
    ),
  'output-unwritable': ({ reason }) =>
    words(
      `This could not be written (${reasonInWords(reason)}); nothing half-written is left behind.`,
      'Check that the folder is there, that you may write to it and that the disk is not full.',
    ),
  'output-exists': () =>
    words(
      'There is already something at this path, and it was left as it is.',
      'Choose another name; or move the old file away first if it is no longer needed.',
    ),
};
