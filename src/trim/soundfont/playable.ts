import type { SampleRecord } from '../../instruments/soundfont/hydra.ts';

/** All flags that SoundFont 2.04 gives an uncompressed sample in the file (section 7.10). */
const knownTypes = 0x000f;

/** Older versions of FluidSynth take none that is shorter (`fixup_sample`). */
const fewestPoints = 4;

/**
 * True when every synthesiser has to take the sample for one that sounds: in the file's own sound, of
 * a known type, not as good as empty. FluidSynth 2.3.1 (`fluid_sample_validate`) drops any other, and
 * an instrument whose first zone has lost its sample so takes this zone for its global one.
 *
 * @param points how many the sound of the bank has
 */
export const isPlayable = ({ start, end, type }: SampleRecord, points: number): boolean =>
  (type & ~knownTypes) === 0 && end - start >= fewestPoints && end <= points;
