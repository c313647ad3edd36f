import { bankCues } from './bank-cues.ts';
import type { SuiteCue } from './events.ts';
import { legatoCues, modeCues } from './mono-cues.ts';
import { noteCues } from './note-cues.ts';
import { resetCues } from './reset-cues.ts';

/** Small invented cues for what the real ones do not hold; the same bytes every time. */
export const suiteCues = (): readonly SuiteCue[] => [
  ...resetCues(),
  ...bankCues(),
  ...noteCues(),
  ...legatoCues(),
  ...modeCues(),
];
