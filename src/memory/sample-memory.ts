import type { Sample } from '../instruments/instrument.ts';

/**
 * Bytes a sample takes when it is loaded whole at the width the source stores: frames x channels x
 * width, from its header. 0 for what is not in the file (ROM, broken headers).
 */
export const sampleBytes = ({ present, frames, channels, width }: Sample): number =>
  present ? frames * channels * width : 0;

/** Bytes of several samples, each counted once however many zones use it. */
export const bytesOf = (samples: readonly Sample[], indices: Iterable<number>): number => {
  let bytes = 0;
  for (const index of new Set(indices)) bytes += sampleBytes(samples[index]!);
  return bytes;
};
