import { fold } from '../../notation/fold.ts';
import type { StartEvent } from '../program.ts';

/** What a cell may say. */
const events: ReadonlyMap<string, StartEvent> = new Map([
  ['no', 'note-on'],
  ['false', 'note-on'],
  ['0', 'note-on'],
  ['yes', 'release'],
  ['true', 'release'],
  ['1', 'release'],
  ['note-off', 'note-off'],
]);

/**
 * What starts a zone, from its cell `release`: `yes`, when the key and the pedal are up; `note-off`,
 * when the key goes up. Spreadsheets write a ticked box as TRUE.
 */
export const parseStartEvent = (text: string): StartEvent | null =>
  events.get(fold(text.replaceAll('_', ' ')).replaceAll(' ', '-')) ?? null;
