import type { ReportFindings } from '../../terms/findings/reports.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes } from '../format.ts';
import { words, type Wording } from './words.ts';

const cuesOfPlan =
  'The page shows what each cue of the plan needs, whatever other cues are named for the proof: put it back as it was, or plan again and make the page from the new keep file.';

/** A page that is made from a keep file, and its size. */
export const reportWording: Wording<keyof ReportFindings> = {
  'report-template-changed': () =>
    words(
      'The instruments, players or machines of the template are not those that the keep file was made with.',
      'Plan again with this template, or name the one of the plan: --template FILE.',
    ),
  'report-instrument-changed': ({ instrument }) =>
    words(
      `The definition of ${printable(instrument)} is not the one that the keep file was made with, so its layers can't be shown.`,
      'Plan again with this definition, or put that one back.',
    ),
  'report-cue-changed': ({ cue }) =>
    words(
      `Cue ${printable(cue)} is not the one that the keep file was made with.`,
      `${cuesOfPlan} To see what it asks for now: keepset check.`,
    ),
  'report-cue-gone': ({ cue }) =>
    words(
      `Cue ${printable(cue)}, which the keep file was made with, is not there any more.`,
      cuesOfPlan,
    ),
  'report-page-large': ({ most }) =>
    words(
      `This page is larger than ${formatBytes(most)}: there is too much to tell of.`,
      'Make pages of some of the cues each, or take the data alone: --format json.',
    ),
};
