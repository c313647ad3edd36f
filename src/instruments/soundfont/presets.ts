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
 * The presets that can be played, by bank and program and then in file order (SoundFont 2.04, section
 * 7.2): those without zones are ignored. Of several with the same numbers the first is what plays; the
 * specification does not say so, and a synthesiser may take another.
 */
export const usablePresets = (
  path: string,
  records: readonly PresetRecord[],
): { readonly presets: readonly PresetRecord[]; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const seen = new Set<number>();
  for (const record of records) {
    const { zones, byte } = record;
    const isEmpty = zones.from === zones.to;
    if (isEmpty || seen.has(numberOf(record))) {
      const code = isEmpty ? 'bank-preset-empty' : 'bank-preset-repeated';
      findings.push(finding('warning', code, path, { preset: presetLabel(record) }, { byte }));
    }
    if (!isEmpty) seen.add(numberOf(record));
  }
  const presets = records
    .filter(({ zones }) => zones.from < zones.to)
    .sort((a, b) => numberOf(a) - numberOf(b));
  if (presets.length === 0) findings.push(finding('warning', 'bank-no-presets', path, {}));
  return { presets, findings };
};

const numberOf = ({ bank, program }: PresetNumber): number => bank * 65_536 + program;

/** True for a preset whose numbers an earlier one has: only some synthesisers would play it. */
export const isRepeated = (presets: readonly PresetNumber[], index: number): boolean =>
  index > 0 && numberOf(presets[index - 1]!) === numberOf(presets[index]!);

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
