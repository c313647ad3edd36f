import type { Instrument } from '../instruments/instrument.ts';
import { bytesOf } from '../memory/sample-memory.ts';
import { doubtNames, doubtSet, type DoubtName, type DoubtSet } from '../terms/doubt.ts';
import type { Settlement } from './plan.ts';

/** M(z) per zone: the minimal doubt sets under which the score reaches it; empty: it never does. */
export type ZoneDoubts = readonly (readonly DoubtSet[])[];

export type Settlements = Readonly<Partial<Record<DoubtName, Settlement>>>;

/** The doubts answered as the plain reading: what is reached only through one of them goes. */
export const settledAsPlain = (settle: Settlements): DoubtSet =>
  doubtSet(...doubtNames.filter((name) => settle[name] === 'plain'));

/** True when one of the sets holds without any doubt of `excluded`. */
export const holdsWithout = (sets: readonly DoubtSet[], excluded: DoubtSet): boolean =>
  sets.some((set) => (set & excluded) === 0);

/** All zones that stay when the doubts in `excluded` are answered as the plain reading. */
export interface Decision {
  readonly byUsage: readonly boolean[];
  /** Zones kept only so that a stereo partner stays whole. */
  readonly linked: readonly boolean[];
}

export const decide = (
  instrument: Instrument,
  doubts: ZoneDoubts,
  excluded: DoubtSet,
): Decision => {
  const byUsage = doubts.map((sets) => holdsWithout(sets, excluded));
  return { byUsage, linked: linkedZones(instrument, byUsage) };
};

/** Distinct samples of the zones that stay. */
export const keptSamples = (
  { zones }: Instrument,
  { byUsage, linked }: Decision,
): ReadonlySet<number> =>
  new Set(zones.flatMap(({ samples }, i) => (byUsage[i]! || linked[i]! ? samples : [])));

/** mem(X): bytes of what stays, at the grain of single samples. */
export const decisionBytes = (instrument: Instrument, decision: Decision): number =>
  bytesOf(instrument.samples, keptSamples(instrument, decision));

/**
 * The other halves of stereo pairs: "played entirely synchronously" with their partner, so a player
 * that honours links needs them although no note reaches them (SoundFont 2.04, section 7.10: both in
 * the same instrument).
 */
const linkedZones = ({ zones, samples }: Instrument, byUsage: readonly boolean[]): boolean[] => {
  const wanted = new Set<string>();
  zones.forEach((zone, i) => {
    if (!byUsage[i]!) return;
    for (const sample of zone.samples) {
      const { partner } = samples[sample]!;
      if (partner !== null) wanted.add(`${String(zone.group)} ${String(partner)}`);
    }
  });
  return zones.map(
    ({ samples: own, group }, i) =>
      !byUsage[i]! && own.some((sample) => wanted.has(`${String(group)} ${String(sample)}`)),
  );
};
