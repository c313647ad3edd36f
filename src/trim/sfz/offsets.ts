import { ControlState, type Control } from '../../instruments/sfz/structure/control.ts';
import type { Opcode, SfzDocument } from '../../instruments/sfz/text/document.ts';
import { keyOf } from '../../instruments/sfz/text/numbers.ts';
import { wholeText, type NewHeader } from './stub-list.ts';

/** What `<control>` adds to keys and to the keys of switches. */
export type Offsets = Pick<Control, 'noteOffset' | 'switchOffset'>;

/** An `sw_default` with the offsets that hold where it stands. */
export interface WrittenDefault {
  readonly key: number;
  readonly offsets: Offsets;
  /** Index of its header. */
  readonly header: number;
}

/** Every `sw_default` in reading order, and the offsets at the end. */
export const defaultsIn = ({
  headers,
}: SfzDocument): { readonly defaults: readonly WrittenDefault[]; readonly end: Offsets } => {
  const control = new ControlState();
  const defaults: WrittenDefault[] = [];
  headers.forEach(({ name, opcodes }, header) => {
    if (name === 'control') control.take(opcodes);
    if (!carriers.has(name)) return;
    for (const key of keysOf(opcodes)) defaults.push({ key, offsets: control.now, header });
  });
  return { defaults, end: control.now };
};

/** Headers in which an `sw_default` counts. */
const carriers = new Set(['control', 'global', 'master', 'group', 'region']);

const keysOf = (opcodes: readonly Opcode[]): readonly number[] =>
  opcodes.flatMap(({ name, value }) => (name === 'sw_default' ? (keyOf(value) ?? []) : []));

/** A `<control>` that leads from one set of offsets to another; none when they are the same. */
export const controlFor = (from: Offsets, to: Offsets): readonly NewHeader[] => {
  const opcodes = [
    ...(from.noteOffset === to.noteOffset ? [] : offsetOpcodes('', to.noteOffset)),
    ...(from.switchOffset === to.switchOffset ? [] : offsetOpcodes('sw_', to.switchOffset)),
  ];
  return opcodes.length === 0 ? [] : [{ name: 'control', opcodes }];
};

/** Notes go up to 127, octaves to 10: what is more than either takes both. */
const offsetOpcodes = (before: '' | 'sw_', semitones: number): NewHeader['opcodes'] => {
  const octaves = Math.abs(semitones) <= 127 ? 0 : 10 * Math.sign(semitones);
  return [
    [`${before}note_offset`, wholeText(semitones - 12 * octaves)],
    [`${before}octave_offset`, wholeText(octaves)],
  ];
};
