import { minimal, plain } from '../oracle/doubts.ts';
import type { OracleBank } from '../oracle/soundfont-bank.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { reachOf, type ReachedZones } from './cue-reach.ts';

/** Why a sample stays that is not simply played; or `null`, and then nothing keeps it. */
export type Stays = 'played' | 'doubt' | 'linked' | null;

/** Minimal sets of doubts by sample header, for each sample that any zone reaches. */
export type ReachedSamples = ReadonlyMap<number, readonly number[]>;

export const samplesOf = (bank: OracleBank, zones: ReachedZones): ReachedSamples => {
  const samples = new Map<number, readonly number[]>();
  for (const { locals } of bank.instruments) {
    for (const { index, target } of locals) {
      const doubts = zones.get(index);
      if (doubts === undefined || target === null) continue;
      samples.set(target, minimal([...(samples.get(target) ?? []), ...doubts]));
    }
  }
  return samples;
};

/** The other half of a stereo pair that names each other (SoundFont 2.01, section 7.10). */
const partnerOf = ({ samples }: OracleBank, sample: number): number | null => {
  const [one, other] = [samples[sample], samples[samples[sample]?.link ?? -1]];
  if (one === undefined || other?.link !== sample || other === one) return null;
  return [one.type, other.type].sort().join() === '2,4' ? other.index : null;
};

export const whyItStays = (bank: OracleBank, reached: ReachedSamples, sample: number): Stays => {
  const doubts = reached.get(sample);
  if (doubts !== undefined) return doubts.includes(plain) ? 'played' : 'doubt';
  const partner = partnerOf(bank, sample);
  return partner !== null && reached.has(partner) ? 'linked' : null;
};

/**
 * The samples that are still played when every note goes whose tick turns all sound of its channel off
 * (controller 120): such a note starts and ends at once.
 */
export const heardBeyondSoundOff = (
  bank: OracleBank,
  events: readonly OracleEvent[],
): ReachedSamples => {
  const off = new Set(
    events.flatMap((event) =>
      event.kind === 'controller' && event.number === 120
        ? [`${String(event.tick)} ${String(event.channel)}`]
        : [],
    ),
  );
  if (off.size === 0) return samplesOf(bank, reachOf(bank, events));
  const left = events.filter(
    (event) =>
      event.kind !== 'note-on' || !off.has(`${String(event.tick)} ${String(event.channel)}`),
  );
  return samplesOf(bank, reachOf(bank, left));
};
