import { memoryOf } from '../../memory/loaded-memory.ts';
import { machineMemory } from '../../memory/machine-memory.ts';
import { handOf, loadedAs, type AtHand } from './at-hand.ts';
import { isEmpty, isUnchanged, type InstrumentPair, type Side } from './copy-pairs.ts';
import { planOf, sharingKey } from './sample-count.ts';

/**
 * Bytes that stay loaded from one keep file to the next, or why they can't be told: `absent`, the
 * instrument is not at hand; `changed`, it is not the one of the files; `figures`, what it comes to
 * now is not what the files say, as its player or its readings are others.
 */
export type Staying = number | 'absent' | 'changed' | 'figures';

/** What the files say that an instrument takes. */
export const keptBytes = (pair: InstrumentPair, side: 'from' | 'to'): number =>
  planOf(pair, side)?.bytes.kept ?? 0;

/**
 * What stays loaded of one instrument. Where nothing or all of it stays the files tell; else the
 * instrument has to be there, and to give the very figures of both files.
 */
export const stayingOf = (pair: InstrumentPair, atHand: ReadonlyMap<string, AtHand>): Staying => {
  if (isEmpty(pair, 'both')) return 0;
  const kept = { from: keptBytes(pair, 'from'), to: keptBytes(pair, 'to') };
  if (isUnchanged(pair)) return kept.from === kept.to ? kept.to : 'figures';
  const hand = handOf(pair, 'to', atHand);
  if (hand === null) return atHand.has(pair.id) ? 'changed' : 'absent';
  const bytes = (side: Side): number => memoryOf(loadedAs(hand, pair, side)).bytes;
  return bytes('from') === kept.from && bytes('to') === kept.to
    ? // A state that was read may have shown more than one with more in it.
      Math.min(bytes('both'), kept.from, kept.to)
    : 'figures';
};

/** Instruments of one machine by what they share: those of one definition and player together. */
const groupsOf = (
  pairs: readonly InstrumentPair[],
  side: Side,
): readonly (readonly InstrumentPair[])[] => {
  const groups = new Map<string, InstrumentPair[]>();
  for (const pair of pairs) {
    const plan = planOf(pair, side);
    if (plan === null || isEmpty(pair, side)) continue;
    const key = sharingKey(plan);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [pair]);
    else group.push(pair);
  }
  return [...groups.values()];
};

/** Instruments that share samples with another one of their machine in either file. */
export const sharing = (pairs: readonly InstrumentPair[]): readonly InstrumentPair[] =>
  (['from', 'to'] as const).flatMap((side) =>
    groupsOf(pairs, side)
      .filter((group) => group.length > 1)
      .flat(),
  );

/**
 * What stays loaded on a machine: of instruments that share samples what they take together, of the
 * others what stays of each.
 *
 * @param pairs instruments of the machine; in the files where they lie on another one they are null
 * @param kept what the two files say that the machine takes
 */
export const stayingOn = (
  pairs: readonly InstrumentPair[],
  kept: Readonly<Record<'from' | 'to', number>>,
  atHand: ReadonlyMap<string, AtHand>,
): Staying => {
  if (pairs.every(isUnchanged)) return kept.from === kept.to ? kept.to : 'figures';
  const sum = (side: Side, alone: (pair: InstrumentPair) => Staying): Staying => {
    let total = 0;
    for (const group of groupsOf(pairs, side)) {
      const bytes = group.length === 1 ? alone(group[0]!) : together(group, side, atHand);
      if (typeof bytes !== 'number') return bytes;
      total += bytes;
    }
    return total;
  };
  for (const side of ['from', 'to'] as const) {
    const total = sum(side, (pair) => keptBytes(pair, side));
    if (typeof total === 'number' && total !== kept[side]) return 'figures';
  }
  const staying = sum('both', (pair) => stayingOf(pair, atHand));
  return typeof staying === 'number' ? Math.min(staying, kept.from, kept.to) : staying;
};

const together = (
  group: readonly InstrumentPair[],
  side: Side,
  atHand: ReadonlyMap<string, AtHand>,
): Staying => {
  const hands = group.map((pair) => handOf(pair, side, atHand));
  const missing = hands.indexOf(null);
  if (missing >= 0) return atHand.has(group[missing]!.id) ? 'changed' : 'absent';
  return machineMemory(hands.map((hand, i) => loadedAs(hand!, group[i]!, side))).bytes;
};
