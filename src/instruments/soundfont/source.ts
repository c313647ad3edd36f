import { UsageError } from '../../terms/errors.ts';
import type { PresetNumber } from './presets.ts';

/** An instrument as a person names it: a file, or one preset of a bank. */
export interface InstrumentSource {
  readonly path: string;
  readonly preset: PresetNumber | null;
}

/**
 * Reads `FILE` or `FILE.sf2#bank:program`. A `#` may be part of a file name: it begins a preset only
 * when numbers or a bank's file name make that plain.
 *
 * @throws {UsageError} when there is no file name, or the preset is not two numbers a MIDI message
 *   can choose
 * @example parseInstrumentSource('banks/keys.sf2#0:8') // { path: 'banks/keys.sf2', preset: { bank: 0, program: 8 } }
 */
export const parseInstrumentSource = (text: string): InstrumentSource => {
  const hash = text.lastIndexOf('#');
  const path = hash < 0 ? text : text.slice(0, hash);
  const numbers = hash < 0 ? null : /^(\d{1,5}):(\d{1,3})$/.exec(text.slice(hash + 1));
  if (numbers === null) {
    if (text === '') throw new UsageError('An instrument needs a file name.', hint);
    if (hash < 0 || !/\.sf2$/i.test(path)) return { path: text, preset: null };
    throw new UsageError(`"${text.slice(hash + 1)}" is not a preset.`, hint);
  }
  if (path === '') throw new UsageError(`"${text}" has no file name before "#".`, hint);
  const [bank, program] = [Number(numbers[1]), Number(numbers[2])];
  if (bank > 16_383 || program > 127) {
    throw new UsageError(`There is no bank ${String(bank)} with program ${String(program)}.`, hint);
  }
  return { path, preset: { bank, program } };
};

const hint =
  'Write FILE.sf2#bank:program, as in keys.sf2#0:8; banks are 0 to 16383, programs 0 to 127.';
