import { isOneDefinition } from '../keep-file/one-definition.ts';
import type { PlanInstrument } from '../plan.ts';
import { handOf, type AtHand } from './at-hand.ts';
import { zoneCount, type InstrumentPair, type Side } from './copy-pairs.ts';
import type { Amount, DiffAmounts, DiffCopy, DiffInstrument, DiffZone } from './diff.ts';
import { loadedNames } from './loaded-copies.ts';
import { planOf, sampleCount } from './sample-count.ts';
import { keptBytes, type Staying } from './staying-bytes.ts';
import { zonePlaces } from './zone-place.ts';

/** What is to be loaded and unloaded of one instrument. */
export const diffInstrument = (
  pair: InstrumentPair,
  staying: Staying,
  atHand: ReadonlyMap<string, AtHand>,
): DiffInstrument => {
  const { id, from, to } = pair;
  const before = from === null ? [] : loadedNames(from);
  const after = to === null ? [] : loadedNames(to);
  return {
    id,
    source: (to ?? from)!.source,
    machine: { from: from?.machine ?? null, to: to?.machine ?? null },
    definition: definitionOf(from, to),
    copiesLoaded: after.filter((name) => !before.includes(name)),
    copiesUnloaded: before.filter((name) => !after.includes(name)),
    copies: diffCopies(pair, atHand),
    ...amountsOf([pair], staying, {
      from: keptBytes(pair, 'from'),
      to: keptBytes(pair, 'to'),
    }),
  };
};

const definitionOf = (
  from: PlanInstrument | null,
  to: PlanInstrument | null,
): DiffInstrument['definition'] => {
  if (from === null) return 'added';
  if (to === null) return 'removed';
  return isOneDefinition(from, to) ? 'same' : 'changed';
};

const diffCopies = (
  pair: InstrumentPair,
  atHand: ReadonlyMap<string, AtHand>,
): readonly DiffCopy[] => {
  const describe = { from: describer(pair, 'from', atHand), to: describer(pair, 'to', atHand) };
  return pair.copies
    .map(({ name, from, to, both }) => ({
      name,
      load: describe.to((zone) => to.zones.has(zone) && !both.zones.has(zone)),
      unload: describe.from((zone) => from.zones.has(zone) && !both.zones.has(zone)),
    }))
    .filter(({ load, unload }) => load.length > 0 || unload.length > 0);
};

/** Describes some zones of an instrument as one of the files has it, in its order. */
const describer = (
  pair: InstrumentPair,
  side: Side,
  atHand: ReadonlyMap<string, AtHand>,
): ((isMeant: (zone: number) => boolean) => readonly DiffZone[]) => {
  const plan = planOf(pair, side);
  if (plan === null) return () => [];
  const hand = handOf(pair, side, atHand);
  const places = hand === null ? null : zonePlaces(hand.instrument);
  return (isMeant) =>
    plan.kept
      .filter(({ zone }) => isMeant(zone))
      .map(({ zone, key, samples, articulations }) => ({
        zone,
        key,
        samples,
        articulations: articulations.map((index) => plan.articulations[index]!.name),
        place: places?.get(zone) ?? null,
      }));
};

/**
 * Zones, samples and bytes to load, to unload and that stay, of instruments of one machine.
 *
 * @param kept what the two files say that they take
 */
export const amountsOf = (
  pairs: readonly InstrumentPair[],
  staying: Staying,
  kept: Readonly<Record<'from' | 'to', number>>,
): DiffAmounts => {
  const count = (side: Side): Amount => ({
    zones: pairs.reduce((sum, pair) => sum + zoneCount(pair, side), 0),
    samples: sampleCount(pairs, side),
    bytes: typeof staying !== 'number' ? null : side === 'both' ? staying : kept[side],
  });
  const both = count('both');
  return { load: less(count('to'), both), unload: less(count('from'), both), unchanged: both };
};

const less = (all: Amount, part: Amount): Amount => ({
  zones: all.zones - part.zones,
  samples: all.samples - part.samples,
  bytes: all.bytes === null || part.bytes === null ? null : all.bytes - part.bytes,
});
