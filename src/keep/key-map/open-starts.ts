import type { Instrument } from '../../instruments/instrument.ts';
import type { PlanInstrument } from '../plan.ts';

/** Whether a start of the program still goes through what stays: in a bank, its preset zone. */
export const openStarts = (
  { presetZones }: Pick<Instrument, 'presetZones'>,
  own: Pick<PlanInstrument, 'presetZones'> | null,
): ((start: number) => boolean) => {
  const ways = new Set(own?.presetZones);
  return (start) => presetZones.length === 0 || ways.has(presetZones[start]!);
};
