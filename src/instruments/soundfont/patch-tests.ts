import { plain } from '../../terms/doubt.ts';
import { drumBank, patchValue, type Test } from '../program.ts';
import type { PresetNumber } from './presets.ts';

const lastBank = 16_383;
const programs = Array.from({ length: 128 }, (_, program) => program);

/**
 * Which patches each preset answers to, as ranges of {@link patchValue}: its own numbers, and those
 * that no preset has and that fall back to it. A drum patch (bank 128) falls back to 128:0; any other
 * to the same program in bank 0, else to 0:0. Source of the fallback: FluidSynth 2.3.1,
 * `fluid_synth_program_change`; the SoundFont specification is silent about it.
 *
 * @param presets those with equal numbers answer alike
 * @returns one list for each preset, ascending and disjoint; empty for numbers no message can choose
 */
export const patchTests = (presets: readonly PresetNumber[]): readonly (readonly Test[])[] => {
  const banks = programs.map(() => new Set<number>());
  for (const { bank, program } of presets) banks[program]?.add(bank);
  return presets.map(({ bank, program }) => {
    if (bank > lastBank || program >= programs.length) return [];
    const answered = program === 0 ? programs : [program];
    return answered.flatMap((asked) => {
      const taken = banks[asked]!;
      if (asked !== program && taken.has(bank)) return [];
      if (bank === 0) return melodic(asked, taken);
      return asked === program || bank === drumBank ? [test(asked, bank, bank)] : [];
    });
  });
};

/** Bank 0 of a program, and every other bank of it that is neither taken nor the drums'. */
const melodic = (program: number, taken: ReadonlySet<number>): readonly Test[] => {
  const others = [...new Set([...taken, drumBank])].filter((bank) => bank > 0 && bank <= lastBank);
  const ranges: Test[] = [];
  let from = 0;
  for (const hole of [...others.sort((a, b) => a - b), lastBank + 1]) {
    if (hole > from) ranges.push(test(program, from, hole - 1));
    from = hole + 1;
  }
  return ranges;
};

const test = (program: number, lo: number, hi: number): Test => ({
  lo: patchValue(lo, program),
  hi: patchValue(hi, program),
  doubt: plain,
});
