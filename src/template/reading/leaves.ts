import { parseByteRate } from '../../notation/byte-rate.ts';
import { parseBytes } from '../../notation/bytes.ts';
import { parseSeconds } from '../../notation/duration.ts';
import { leaf } from '../../notation/document/leaves.ts';
import type { PresetNumber } from '../../instruments/soundfont/presets.ts';
import type { Head } from '../player.ts';

/** A pattern for names; the empty one matches what has no name. */
export const pattern = leaf('pattern', [], (scalar) => scalar.text);

/** A path with `/`, relative or not. */
const path = (expected: string, ending: RegExp) =>
  leaf(expected, [], (scalar) =>
    ending.test(scalar.text) && !scalar.text.includes('\\') ? scalar.text : null,
  );

export const cuePath = path('cue-path', /\S/u);
export const bankPath = path('bank-path', /[^/]\.(?:sf2|sfz)$/iu);
export const outlinePath = path('outline-path', /[^/]\.ya?ml$/iu);
export const tablePath = path('table-path', /[^/]\.(?:csv|tsv|txt)$/iu);

/** Bytes a second. */
export const byteRate = leaf('byte-rate', [], (scalar) => parseByteRate(scalar.text));

/** Seconds that an event may have been moved by. */
export const slack = leaf('slack', [], (scalar) => {
  const seconds = parseSeconds(scalar.text);
  return seconds !== null && seconds <= 1 ? seconds : null;
});

export const head = leaf('head', [], (scalar): Head | null => {
  const frames = /^(\d{1,9}) ?frames?$/u.exec(scalar.text)?.[1];
  if (frames !== undefined) return { unit: 'frames', frames: Number(frames) };
  const bytes = parseBytes(scalar.text);
  if (bytes !== null) return { unit: 'bytes', bytes };
  const seconds = parseSeconds(scalar.text);
  return seconds === null ? null : { unit: 'seconds', seconds };
});

/** Bytes of one sample point. */
export const width = leaf('width', [], (scalar): 'source' | number | null => {
  if (scalar.text === 'source') return 'source';
  const bits = /^(16|24|32) ?bits?$/u.exec(scalar.text)?.[1];
  return bits === undefined ? null : Number(bits) / 8;
});

/** Written `bank:program`; a bank's number has 16 bits in the file, a program's 7 in MIDI. */
export const preset = leaf('preset', [], ({ value }): PresetNumber | null => {
  const [, bank, program] = /^(\d{1,5}):(\d{1,3})$/u.exec(String(value)) ?? [];
  return bank === undefined || Number(bank) > 65_535 || Number(program) > 127
    ? null
    : { bank: Number(bank), program: Number(program) };
});

/** A number that something is multiplied by. */
const factor = (expected: string) =>
  leaf(expected, [], ({ value }) =>
    typeof value === 'number' && value > 0 && value <= 10 ? value : null,
  );

/** What velocities are multiplied by. */
export const velocityFactor = factor('factor');

/** What sizes of samples are multiplied by. */
export const sampleFactor = factor('sample-factor');

export const flag = leaf('choice', ['true', 'false'], ({ value }) =>
  typeof value === 'boolean' ? value : null,
);
