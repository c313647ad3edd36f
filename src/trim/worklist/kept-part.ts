import type { Instrument } from '../../instruments/instrument.ts';
import { toRanges, type Range } from '../../terms/range.ts';
import type { Part } from './parts.ts';
import type { KeptLayer, KeptPart } from './worklist.ts';

/** Where the zones of a part are played. @param zones indices @returns null for no zone */
export const keptPart = (
  { program, articulations }: Instrument,
  part: Pick<Part, 'articulations'>,
  zones: readonly number[],
): KeptPart | null => {
  if (zones.length === 0) return null;
  const kept = new Set(zones);
  const own = new Set(part.articulations);
  // What a message starts has no key.
  const starts = program.starts.filter(
    ({ zone, articulation, event }) =>
      kept.has(zone) && own.has(articulation) && event !== 'change',
  );
  const played = new Set(starts.flatMap(({ zone, event }) => (event === 'note-on' ? [zone] : [])));
  // The key that goes up may be the one that a transition comes from: it is not the key that is heard.
  const keys = starts.flatMap(({ zone, event, keys: range }) =>
    event === 'note-on' || !played.has(zone) ? [range] : [],
  );
  const layers = part.articulations.flatMap((i) =>
    articulations[i]!.layers.filter((layer) => layer.zones.some((zone) => kept.has(zone))),
  );
  return { keys: joined(keys), layers: joinedLayers(layers) };
};

/** Ranges that touch are one. */
const joined = (ranges: readonly Range[]): readonly Range[] => {
  const values = new Set<number>();
  // Keys and velocities: there are 128 of either.
  for (const [lo, hi] of ranges) {
    for (let value = Math.max(0, lo); value <= Math.min(127, hi); value++) values.add(value);
  }
  return toRanges(values);
};

/** Layers that differ in velocities alone and touch are one. */
const joinedLayers = (layers: readonly KeptLayer[]): readonly KeptLayer[] => {
  const groups = new Map<string, { controllers: KeptLayer['controllers']; velocities: Range[] }>();
  for (const { velocity, controllers } of layers) {
    const key = JSON.stringify(controllers);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { controllers, velocities: [velocity] });
    else group.velocities.push(velocity);
  }
  return [...groups.values()].flatMap(({ controllers, velocities }) =>
    joined(velocities).map((velocity) => ({ velocity, controllers })),
  );
};
