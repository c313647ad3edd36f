import { printable } from '../../terms/printable.ts';
import type { PlayerFindings } from '../../terms/findings/players.ts';
import { words, type Wording } from './words.ts';

/** Players and readings of their displays. */
export const playerWording: Wording<keyof PlayerFindings> = {
  'reading-articulation': ({ instrument, articulation, near }) =>
    words(
      `A reading was given for "${printable(articulation)}", which ${printable(instrument)} does not have; the reading is left out.`,
      near === null
        ? 'Write "empty", "full" or the name of one of its articulations.'
        : `Did you mean "${printable(near)}"?`,
    ),
  'readings-contradict': ({ instrument, used }) =>
    words(
      `The readings of ${printable(instrument)} show less memory where more is loaded. Its figures follow the reading "${printable(used)}" alone, and the others make the range wide.`,
      'Read the display again for each state, with a single copy loaded and nothing else.',
    ),
};
