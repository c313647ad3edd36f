import type { Instrument } from '../../instruments/instrument.ts';
import type { Program } from '../../instruments/program.ts';

/** More repetitions of one note than this are not played. */
const mostTakes = 128;

/** A miss that is taken as none, and how often a note is drawn for at most (design, section 9). */
const rare = 0.001;
const mostDraws = 16;

/**
 * How often a note has to come round until each of the takes that alternate on it has been played.
 * Where zones do not say whose turn it is, starts that nothing tells apart count as takes: layers that
 * sound together are alike too, so it may be more often than needed, never less. Banks, and zones
 * without names, have no takes but those they tell of.
 */
export const takesOf = (
  { playedAs, zones }: Instrument,
  { starts }: Program,
  started: Iterable<number>,
): number => {
  const counts = new Map<string, number>();
  let most = 1;
  for (const index of started) {
    const { zone, event, keys, velocities, gate, fades, change } = starts[index]!;
    const { key, microphone, turn } = zones[zone]!;
    if (turn !== undefined) most = Math.max(most, turn.of * drawsOf(turn.chance));
    if (playedAs === 'bank' || key === null) continue;
    const text = JSON.stringify([event, keys, velocities, gate, fades, change, microphone]);
    const count = (counts.get(text) ?? 0) + 1;
    counts.set(text, count);
    most = Math.max(most, count);
  }
  return Math.min(most, mostTakes);
};

/** How often to draw until a miss is rare. */
const drawsOf = (chance: number): number =>
  chance >= 1 ? 1 : Math.min(mostDraws, Math.ceil(Math.log(rare) / Math.log(1 - chance)));

/** Zones that are picked by chance, by how often their note is played. */
export const chanceOf = (
  { zones }: Instrument,
  primed: readonly number[],
  playsOf: (zone: number) => number,
): { readonly zones: number; readonly plays: number; readonly miss: number } | null => {
  const drawn = primed.flatMap((zone) => {
    const { turn } = zones[zone]!;
    if (turn === undefined || turn.chance >= 1) return [];
    const plays = playsOf(zone);
    return [{ plays, miss: (1 - turn.chance) ** Math.floor(plays / turn.of) }];
  });
  const [first, ...others] = drawn;
  if (first === undefined) return null;
  const worst = others.reduce((most, one) => (one.miss > most.miss ? one : most), first);
  return { zones: drawn.length, ...worst };
};
