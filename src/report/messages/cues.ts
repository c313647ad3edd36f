import type { FindingArgs } from '../../terms/finding.ts';
import { plural } from '../format.ts';
import { printable } from '../../terms/printable.ts';
import { shellWord } from '../shell-word.ts';
import { reasonInWords } from './reasons.ts';
import { words, type Wording } from './words.ts';

const joined = (names: readonly string[]): string => names.map(printable).join(', ');

const notSplit = {
  'no-markers': 'This file has no markers to split it at.',
  'several-timelines':
    'This file holds several sequences, each with a time of its own, and was not split.',
  'too-many': 'This file has more markers than a reel has cues, and was not split.',
} as const;

const splitHint = {
  'no-markers':
    'If it holds several cues, set a marker at the beginning of each and export it again.',
  'several-timelines': 'Export it as format 1, or each cue as a file of its own.',
  'too-many': 'Give the cue numbers to the markers that begin a cue; then only these split it.',
} as const;

type MissingPart = FindingArgs['cue-looks-partial'];

const missingPart = (part: MissingPart): string => {
  const { reason, missing, version, seconds } = part;
  const are = missing === 1 ? 'is' : 'are';
  switch (reason) {
    case 'tracks-of-version':
      return `${missingTracks(part)} ${are} played in ${printable(version ?? '')} and not in it`;
    case 'tracks-of-reel':
      return `${missingTracks(part)} ${are} in every other cue and not in it`;
    default:
      return `its music ends ${plural(Math.round(seconds ?? 0), 'second')} before its last marker`;
  }
};

const missingTracks = ({ tracks, missing }: Pick<MissingPart, 'tracks' | 'missing'>): string => {
  const more = missing - tracks.length;
  const named = tracks.map((name) => `"${printable(name)}"`).join(', ');
  return `${plural(missing, 'track')} (${named}${more > 0 ? ` and ${String(more)} more` : ''})`;
};

/** Cues, and the files and folders they are in. */
export const cueWording: Wording<
  | 'cue-damaged'
  | 'cue-several-files'
  | 'reel-cue-missing'
  | 'cue-versions'
  | 'cue-versions-left'
  | 'cue-not-split'
  | 'cue-looks-partial'
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
      'If only the newest counts, say --newest, or move the older ones out of the folder.',
    ),
  'cue-versions-left': ({ cue, newest, older }) =>
    words(
      `Of cue ${printable(cue)} only ${printable(newest)} counts; left aside: ${joined(older)}.`,
      'Without --newest what any of them plays would count as needed.',
    ),
  'cue-not-split': ({ reason }) =>
    words(`${notSplit[reason]} It counts as one cue.`, splitHint[reason]),
  'cue-looks-partial': (part) =>
    words(
      `Cue ${printable(part.cue)} looks incomplete: ${missingPart(part)}.`,
      `Check the export. If nothing is missing, --accept-partial ${shellWord(part.cue)} says so.`,
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
