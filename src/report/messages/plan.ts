import { printable } from '../../terms/printable.ts';
import { words, type Wording } from './words.ts';

/** The plan as a whole. */
export const planWording: Wording<'instrument-unused' | 'nothing-saved'> = {
  'instrument-unused': ({ instrument }) =>
    words(
      `No cue plays ${printable(instrument)}; all of it could be unloaded.`,
      'Check that every cue was given, and keep the instrument if a cue is still to come.',
    ),
  'nothing-saved': () =>
    words(
      'The cues reach every sample, so nothing can be unloaded.',
      'Look at the doubts in the plan: settling one may free memory.',
    ),
};
