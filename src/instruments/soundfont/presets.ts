import { inputError } from '../../terms/errors.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import type { PresetRecord } from './hydra.ts';

/** A preset by its numbers. */
export interface PresetNumber {
  readonly bank: number;
  readonly program: number;
}

/** @example presetLabel({ bank: 0, program: 48, name: 'Strings' }) // '0:48 Strings' */
export const presetLabel = ({ bank, program, name }: PresetNumber & { name: string }): string =>
  `${String(bank)}:${String(program)}${name === '' ? '' : ` ${name}`}`;

/**
 * The presets that can be played, by bank and program (SoundFont 2.04, section 7.2): those without
 * zones are ignored, and of several with the same numbers the first in the file counts.
 */
export const usablePresets = (
  path: string,
  records: readonly PresetRecord[],
): { readonly presets: readonly PresetRecord[]; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const byNumber = new Map<number, PresetRecord>();
  for (const record of records) {
    const { bank, program, zones, byte } = record;
    const number = bank * 65_536 + program;
    const problem =
      zones.from === zones.to
        ? 'bank-preset-empty'
        : byNumber.has(number)
          ? 'bank-preset-repeated'
          : null;
    if (problem === null) byNumber.set(number, record);
    else {
      const args = { preset: presetLabel(record) };
      findings.push(finding('warning', problem, path, args, { byte }));
    }
  }
  const presets = [...byNumber].sort(([a], [b]) => a - b).map(([, record]) => record);
  if (presets.length === 0) findings.push(finding('warning', 'bank-no-presets', path, {}));
  return { presets, findings };
};

/** @throws {InputError} `preset-missing`, with up to three presets that are near */
export const findPreset = (
  path: string,
  presets: readonly PresetRecord[],
  { bank, program }: PresetNumber,
): PresetRecord => {
  const found = presets.find((one) => one.bank === bank && one.program === program);
  if (found !== undefined) return found;
  const distance = (one: PresetRecord): number =>
    one.program === program
      ? Math.abs(one.bank - bank)
      : 65_536 * (one.bank === bank ? 1 : 2) + Math.abs(one.program - program);
  const near = [...presets].sort((a, b) => distance(a) - distance(b)).slice(0, 3);
  throw inputError('preset-missing', path, {
    preset: `${String(bank)}:${String(program)}`,
    near: near.map(presetLabel),
  });
};
