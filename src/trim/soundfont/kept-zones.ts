import type { Stretch } from '../../instruments/soundfont/hydra.ts';
import { generator, type ZoneSet } from '../../instruments/soundfont/zones.ts';

/** A zone of a trimmed bank: one of the bank's own as it is, or one made of generators. */
export type KeptZone =
  | { readonly kind: 'own'; readonly bag: number }
  | { readonly kind: 'made'; readonly generators: readonly Generator[] };

/** Operator and 16-bit amount; an amount that leads to a target is one of the full bank. */
export type Generator = readonly [operator: number, amount: number];

/** A preset or an instrument that stays, by its index in the full bank, with what stays of it. */
export interface KeptOwner {
  readonly index: number;
  readonly zones: readonly KeptZone[];
}

/** Low end in the low byte (SoundFont 2.04, section 7.5, `rangesType`). */
const range = (low: number, high: number): number => low | (high << 8);

/** A preset zone that no note reaches: velocity 0 is a note-off. */
export const silentZone = (instrument: number): KeptZone => ({
  kind: 'made',
  generators: [
    [generator.keyRange, range(0, 0)],
    [generator.velRange, range(0, 0)],
    [generator.instrument, instrument],
  ],
});

/** A global zone that changes nothing. */
const neutralGlobal: KeptZone = {
  kind: 'made',
  generators: [[generator.keyRange, range(0, 127)]],
};

/**
 * The zones `kept` of a preset or an instrument, with its global zone: the first of all when it leads
 * nowhere (SoundFont 2.04, sections 7.3, 7.7). Any other zone that leads nowhere is ignored, and goes;
 * FluidSynth 2.3.1 discards it too; older versions took it for a global one.
 *
 * @param set the zones of the full bank that count, `stretch` all of them
 * @param kept indices of those that stay, at least one, ascending
 */
export const withGlobal = (
  set: ZoneSet,
  stretch: Stretch,
  kept: readonly number[],
): readonly KeptZone[] => {
  const bags = hasGlobal(set, stretch) ? [stretch.from, ...kept] : kept;
  return bags.map((bag) => ({ kind: 'own', bag }));
};

const hasGlobal = ({ zones }: ZoneSet, { from }: Stretch): boolean => zones[0]!.bag !== from;

/**
 * What stays of an instrument of which the zones `kept` do, with care for a first zone whose sample
 * can't be played where no global zone stands before it. FluidSynth takes it for the global zone, so
 * that its generators pass to all others: it stays where it was first, and no other zone may come to be
 * the first, so that a neutral global zone goes in front of it.
 *
 * @param isPlayable whether the sample with this index can be played
 */
export const keptOfInstrument = (
  set: ZoneSet,
  stretch: Stretch,
  kept: readonly number[],
  isPlayable: (sample: number) => boolean,
): readonly KeptZone[] => {
  if (hasGlobal(set, stretch)) return withGlobal(set, stretch, kept);
  const targets = new Map(set.zones.map(({ bag, target }) => [bag, target]));
  const isMute = (bag: number): boolean => !isPlayable(targets.get(bag)!);
  const first = kept[0]!;
  const { from } = stretch;
  if (first === from) return withGlobal(set, stretch, kept);
  if (isMute(from)) return withGlobal(set, stretch, [from, ...kept]);
  const zones = withGlobal(set, stretch, kept);
  return isMute(first) ? [neutralGlobal, ...zones] : zones;
};
