import type { CheckFindings } from '../../terms/findings/checks.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 4).map(printable).join(', ');
  return names.length > 4 ? `${shown} and ${String(names.length - 4)} more` : shown;
};

/** Holding cues against a keep file. */
export const checkWording: Wording<keyof CheckFindings> = {
  'check-template-changed': () =>
    words(
      'The template has changed since the keep file was made: tracks may go to other instruments now.',
      'Plan again with this template, then check.',
    ),
  'check-instrument-changed': ({ instrument }) =>
    words(
      `The instrument ${printable(instrument)} is not the one that the keep file speaks of: its definition has changed, so its zones were not compared.`,
      'Plan again with this instrument, or put the one of the plan back.',
    ),
  'check-instrument-added': ({ instrument }) =>
    words(
      `The cues play ${printable(instrument)}, which is not in the keep file.`,
      'Plan again with this template.',
    ),
  'check-copies-added': ({ instrument, copies, bytes }) =>
    words(
      `${plural(copies.length, 'copy', 'copies')} of ${printable(instrument)} that the plan did not load ${copies.length === 1 ? 'gets' : 'get'} notes now: ${listed(copies)}.`,
      `Load ${copies.length === 1 ? 'it' : 'them'} with the kept zones${bytes > 0 ? ` (${formatBytes(bytes)} each on top)` : ''}, or plan again.`,
    ),
  'check-choice-new': ({ instrument, copies }) =>
    words(
      `${listed(copies)} ${copies.length === 1 ? 'chooses' : 'choose'} an articulation of ${printable(instrument)} that no cue of the plan chose; cues that were not checked may begin with it.`,
      'Check the whole reel: keepset check without naming cues.',
    ),
  'check-files-missing': ({ cue, files, planned }) =>
    words(
      `Cue ${printable(cue)} was planned from ${plural(planned, 'file')} and is checked from ${String(files)}: which copy a track plays depends on all of them.`,
      'Give all files of the cue together, or plan again.',
    ),
  'check-print-changed': ({ cue, instruments }) =>
    words(
      `Cue ${printable(cue)} has changed, and some of its tracks are audio already (${listed(instruments)}): what was recorded may be of the older version.`,
      'Listen to it against the new version, and record it again where it differs.',
    ),
  'check-choices-gone': ({ instrument, copies }) =>
    words(
      `${listed(copies)} ${copies.length === 1 ? 'chooses' : 'choose'} no articulation of ${printable(instrument)} any more, and other cues may have begun with what was chosen here.`,
      'Check the whole reel: keepset check without naming cues.',
    ),
};
