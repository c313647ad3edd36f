import type { Trimmed } from '../trimmed.ts';
import type { KeptZone } from './kept-zones.ts';

/**
 * Where zones of the full bank are in the trimmed one, and which of its zones only hold a place: first
 * zones that stay for what they mean to the others.
 *
 * @param zones all instrument zones of the trimmed bank, in its order
 * @param sampleOf the sample of each zone of the full bank that leads to one
 */
export const zonePlaces = (
  zones: readonly KeptZone[],
  loaded: ReadonlySet<number>,
  sampleOf: ReadonlyMap<number, number>,
): Pick<Trimmed, 'zones' | 'places'> => {
  const found = new Map<number, number>();
  const places: number[] = [];
  for (const [index, zone] of zones.entries()) {
    // A zone that leads nowhere is no zone of its own.
    if (zone.kind === 'made' || !sampleOf.has(zone.bag)) continue;
    if (loaded.has(zone.bag)) found.set(zone.bag, index);
    else places.push(index);
  }
  return { zones: found, places };
};
