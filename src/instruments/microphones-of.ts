import { fold } from '../notation/fold.ts';
import type { Instrument } from './instrument.ts';

/** The microphones that the zones of an instrument name, each once as it is first written. */
export const microphonesOf = ({ zones }: Pick<Instrument, 'zones'>): readonly string[] => {
  const names = new Map<string, string>();
  for (const { microphone } of zones) {
    if (microphone !== null && !names.has(fold(microphone)))
      names.set(fold(microphone), microphone);
  }
  return [...names.values()];
};
