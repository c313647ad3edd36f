import { doubtNames } from '../../../terms/doubt.ts';
import type { PlanInstrument, PlanSettings } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** What an instrument says of itself as a whole. */
export const instrumentAgrees = (
  instrument: PlanInstrument,
  settings: PlanSettings,
  found: Disagreements,
): void => {
  const { kept, dropped, settle, presetZones } = instrument;
  found.once(
    'zone',
    [...kept, ...dropped].map(({ zone }) => zone),
  );
  found.same('zones', instrument.zones, kept.length + dropped.length);
  found.same('zones-kept', instrument.zonesKept, kept.length);
  const used = new Set(kept.flatMap(({ samples }) => samples));
  found.same('samples-kept', instrument.samplesKept, used.size);
  for (const { samples } of dropped) for (const sample of samples) used.add(sample);
  found.atLeast('samples', instrument.samples, used.size);
  found.once('preset-zone', presetZones);
  bytesAgree(instrument, found);
  if (Object.hasOwn(settle, 'damage')) found.never('answer', 'damage');
  // Answers for the whole template hold for each instrument, unless it has its own.
  for (const name of doubtNames) {
    if (settings.settle[name] !== undefined && settle[name] === undefined) {
      found.known('answer', name, new Set(Object.keys(settle)));
    }
  }
};

/** True where no reading of a display stands behind the figures. */
export const isComputed = ({ bytes }: PlanInstrument): boolean => bytes.readings === 0;

const bytesAgree = (instrument: PlanInstrument, found: Disagreements): void => {
  const { bytes, samples } = instrument;
  const { full, reached, kept, low, high } = bytes;
  found.atMost('samples-unknown', bytes.unknownSamples, samples);
  found.atMost('bytes-low', low, kept);
  found.atLeast('bytes-high', high, kept);
  if (bytes.basis !== 'computed') found.atLeast('readings', bytes.readings, 1);
  if (!isComputed(instrument)) return;
  // What was read off may contradict what is computed; else more zones take more.
  found.same('bytes-low', low, kept);
  found.same('bytes-high', high, kept);
  found.same('residual', bytes.residual, 0);
  found.atMost('bytes-kept', kept, full);
  found.atMost('bytes-reached', reached, kept);
};
